"use client";
import { useRouter } from "next/navigation";
import { type FormEvent, useCallback, useEffect, useEffectEvent, useId, useRef, useState } from "react";
import { Button } from "./Button";
import { CONTROL } from "./FieldFrame";
import { SubmitButton } from "./SubmitButton";
import { words } from "./words";

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
    const leave = new AbortController();
    // Most codes come from a hand scanner, or are typed.
    import("./cameraLook")
      .then(({ cameraLook }) => cameraLook(() => video.current, leave.signal, go))
      .catch(() => words.unreachable)
      .then((wrong) => {
        if (!wrong || leave.signal.aborted) return;
        setTrouble(wrong);
        setLooking(false);
        field.current?.focus();
      });
    return () => leave.abort();
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
