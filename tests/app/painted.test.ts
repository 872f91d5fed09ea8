import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { painted } from "@/app/_ui/painted";

describe("waiting until a page is painted", () => {
  let frame: (() => void) | undefined;
  const gone = vi.fn<() => void>();

  beforeEach(() => {
    frame = undefined;
    gone.mockReset();
    vi.useFakeTimers();
    vi.stubGlobal("requestAnimationFrame", (run: () => void) => {
      frame = run;
    });
  });
  afterEach(() => {
    vi.useRealTimers();
    vi.unstubAllGlobals();
  });

  it("goes on in a task after the frame, not in the frame itself, which is painted after that", async () => {
    void painted().then(gone);
    await vi.advanceTimersByTimeAsync(50);
    expect(gone).not.toHaveBeenCalled();
    frame?.();
    await Promise.resolve();
    expect(gone).not.toHaveBeenCalled();
    await vi.advanceTimersByTimeAsync(1);
    expect(gone).toHaveBeenCalledOnce();
  });

  it("does not wait for the frame of a page that nobody looks at: an act of it is sent all the same", async () => {
    void painted().then(gone);
    await vi.advanceTimersByTimeAsync(100);
    expect(gone).toHaveBeenCalledOnce();
  });
});
