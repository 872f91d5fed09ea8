import { type CodeReader, codeReader } from "./codeReader";

/**
 * Looks through the camera for a code, with what it sees in `shown`, until one is found or it is told to leave; answers what is
 * wrong where there is no camera to look through.
 */
export async function cameraLook(
  shown: () => HTMLVideoElement | null,
  leave: AbortSignal,
  found: (code: string) => void,
): Promise<string | undefined> {
  let stream: MediaStream | undefined;
  const stop = () => {
    for (const track of stream?.getTracks() ?? []) track.stop();
  };
  leave.addEventListener("abort", stop);
  try {
    // Where an address is not secure, browsers do not even name the camera.
    if (!navigator.mediaDevices) throw new DOMException("not secure", "SecurityError");
    stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: "environment" } });
    const video = shown();
    if (leave.aborted || !video) {
      stop();
      return undefined;
    }
    video.srcObject = stream;
    await video.play();
    await until(() => leave.aborted, video, await codeReader(), found);
  } catch (cause) {
    stop();
    if (!leave.aborted) return told(cause);
  }
  return undefined;
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
