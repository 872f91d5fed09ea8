"use client";
import { useEffect, useState } from "react";

function text(seconds: number): string {
  const two = (value: number) => String(value).padStart(2, "0");
  return `${Math.floor(seconds / 3600)}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`;
}

/** Time running, counted on from what the server said, so that a device's wrong clock does no harm. Key it by the answer it came with. */
export function RunningClock({ untilNowMs }: { untilNowMs: number }) {
  const [passed, setPassed] = useState(0);
  useEffect(() => {
    const since = performance.now();
    const timer = setInterval(() => setPassed(performance.now() - since), 1000);
    return () => clearInterval(timer);
  }, []);
  const seconds = Math.floor((untilNowMs + passed) / 1000);
  return (
    <span role="timer" aria-label="Your time on this job" className="font-mono text-[20px] text-brass">
      {text(seconds)}
    </span>
  );
}
