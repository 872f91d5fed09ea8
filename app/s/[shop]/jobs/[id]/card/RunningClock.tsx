"use client";
import { useEffect, useState } from "react";

function text(seconds: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

/** Time running, counted from what the server said, so that a device's wrong clock does no harm. Key it by both instants. */
export function RunningClock({ startedAt, now }: { startedAt: number; now: number }) {
  const [passed, setPassed] = useState(0);
  useEffect(() => {
    const since = performance.now();
    const timer = setInterval(() => setPassed(performance.now() - since), 1000);
    return () => clearInterval(timer);
  }, []);
  const seconds = Math.max(0, Math.floor((now - startedAt + passed) / 1000));
  return (
    <span role="timer" aria-label="Your time on this job" className="font-mono text-[20px] text-brass">
      {text(seconds)}
    </span>
  );
}
