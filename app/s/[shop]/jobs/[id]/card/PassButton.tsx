"use client";
import { type ReactNode, useEffect, useRef } from "react";
import { SubmitButton } from "@/app/_ui/SubmitButton";

const SETTLES_MS = 1000;

/** Passes a step. A second tap that was meant for the step before does nothing: the button rests for a second on a new step. */
export function PassButton({ children }: { children: ReactNode }) {
  const since = useRef(Number.POSITIVE_INFINITY);
  const box = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    since.current = performance.now();
    const form = box.current?.closest("form");
    const early = (event: SubmitEvent) => {
      if (performance.now() - since.current >= SETTLES_MS) return;
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    form?.addEventListener("submit", early, { capture: true });
    return () => form?.removeEventListener("submit", early, { capture: true });
  }, []);
  return (
    <span ref={box} className="contents">
      <SubmitButton size="act">{children}</SubmitButton>
    </span>
  );
}
