"use client";
import { useRouter } from "next/navigation";
import { type FormEvent, useCallback, useEffect, useEffectEvent, useId, useRef, useState } from "react";
import { Button } from "./Button";
import { type CodeReader, codeReader } from "./codeReader";
import { CONTROL } from "./FieldFrame";
import { SubmitButton } from "./SubmitButton";

export interface ScanFieldProps {
  /** The page that a code leads to. */
  path: string;
  /** Takes the code in place of leaving for that page. */
  onCode?: ((code: string) => void) | undefined;
}

/** A field that a hand scanner types into, and a camera that looks for a code. Both lead to the part. */
export function ScanField({ path, onCode }: ScanFieldProps) {
  const id = useId();
  const router = useRouter();
  const field = useRef<HTMLInputElement>(null);
  const video = useRef<HTMLVideoElement>(null);
  const [looking, setLooking] = useState(false);
  const [trouble, setTrouble] = useState("");
  const taken = useEffectEvent((code: string) => onCode?.(code));
  const takes = onCode !== undefined;
  const go = useCallback(
    (code: string) => {
      if (!takes) return router.push(`${path}?code=${encodeURIComponent(code)}`);
      setLooking(false);
      if (field.current) field.current.value = "";
      taken(code);
    },
    [router, path, takes],
  );
  useEffect(() => field.current?.focus(), []);

  useEffect(() => {
    if (!looking) return;
    let stream: MediaStream | undefined;
    let ended = false;
    const stop = () => {
      for (const track of stream?.getTracks() ?? []) track.stop();
    };
    const look = async () => {
      try {
        // Where an address is not secure, browsers do not even name the camera.
        if (!navigator.mediaDevices) throw new DOMException("not secure", "SecurityError");
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
        const shown = video.current;
        if (ended || !shown) return stop();
        shown.srcObject = stream;
        await shown.play();
        await until(() => ended, shown, await codeReader(), go);
      } catch (cause) {
        stop();
        if (ended) return;
        setTrouble(told(cause));
        setLooking(false);
        field.current?.focus();
      }
    };
    void look();
    return () => {
      ended = true;
      stop();
    };
  }, [looking, go]);

  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const typed = field.current?.value.trim();
    if (typed) go(typed);
  };
  return (
    <div className="mb-6">
      <form action={path} onSubmit={submit} className="flex items-end gap-2.5">
        <div className="min-w-0 flex-1">
          <label htmlFor={id} className="mb-1 block font-semibold text-[15px]">
            Code, size or words
          </label>
          <input
            ref={field}
            id={id}
            name="code"
            autoComplete="off"
            autoCapitalize="off"
            spellCheck={false}
            enterKeyHint="search"
            className={`${CONTROL} font-mono`}
          />
        </div>
        <SubmitButton>Find</SubmitButton>
      </form>
      <div className="mt-3">
        <Button
          onClick={() => {
            setTrouble("");
            setLooking((now) => !now);
          }}
        >
          {looking ? "Stop the camera" : "Use the camera"}
        </Button>
      </div>
      <p role="status" className="mt-2 text-[15px]">
        {looking ? "Hold the label's code before the camera." : trouble}
      </p>
      {looking && (
        <video
          ref={video}
          muted
          playsInline
          aria-label="What the camera sees"
          className="mt-2 w-full border border-edge bg-ink"
        />
      )}
    </div>
  );
}

/** Looks at the picture some times a second until a code is in it. */
async function until(
  ended: () => boolean,
  shown: HTMLVideoElement,
  reader: CodeReader,
  found: (code: string) => void,
): Promise<void> {
  while (!ended()) {
    const code = await reader(shown);
    if (ended()) return;
    if (code) return found(code);
    await new Promise((resume) => setTimeout(resume, 160));
  }
}

const TROUBLE: Readonly<Record<string, string>> = {
  NotAllowedError:
    "The camera is not allowed. Allow it for this page in your browser, or type the code or use a hand scanner.",
  NotFoundError: "There is no camera here. Type the code, or use a hand scanner.",
  NotReadableError:
    "Another program has the camera. Close it and try once more, or type the code or use a hand scanner.",
  SecurityError:
    "Browsers give the camera to secure addresses only: open this page by its https address. Or type the code, or use a hand scanner.",
};

function told(cause: unknown): string {
  const name = cause instanceof DOMException ? cause.name : "";
  return TROUBLE[name] ?? "The camera does not work here. Type the code, or use a hand scanner.";
}
