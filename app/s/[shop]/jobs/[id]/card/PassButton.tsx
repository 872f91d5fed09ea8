"use client";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { SubmitButton } from "@/app/_ui/SubmitButton";

const SETTLES_MS = 1000;

/** The step that the button rested on last: one drawn anew after a refusal, say, is not rested on again. */
let rested = 0;

/** Passes a step. A second tap that was meant for the step before does nothing: the button rests for a second on a new step. */
export function PassButton({ step, children }: { step: number; children: ReactNode }) {
  const [rests, setRests] = useState(() => rested !== step);
  const box = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    if (rested === step) {
      setRests(false);
      return;
    }
    const form = box.current?.closest("form");
    const early = (event: SubmitEvent) => {
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    form?.addEventListener("submit", early, { capture: true });
    const settled = setTimeout(() => {
      form?.removeEventListener("submit", early, { capture: true });
      rested = step;
      setRests(false);
    }, SETTLES_MS);
    return () => {
      clearTimeout(settled);
      form?.removeEventListener("submit", early, { capture: true });
    };
  }, [step]);
  return (
    <span ref={box} className="contents" data-rests={rests || undefined}>
      <SubmitButton size="act">{children}</SubmitButton>
    </span>
  );
}
