"use client";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { SubmitButton } from "@/app/_ui/SubmitButton";

const SETTLES_MS = 1000;

/** Passes a step. A second tap that was meant for the step before does nothing: the button rests for a second on a new step. */
export function PassButton({ children }: { children: ReactNode }) {
  const [rests, setRests] = useState(true);
  const box = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const form = box.current?.closest("form");
    const early = (event: SubmitEvent) => {
      event.preventDefault();
      event.stopImmediatePropagation();
    };
    form?.addEventListener("submit", early, { capture: true });
    const settled = setTimeout(() => {
      form?.removeEventListener("submit", early, { capture: true });
      setRests(false);
    }, SETTLES_MS);
    return () => {
      clearTimeout(settled);
      form?.removeEventListener("submit", early, { capture: true });
    };
  }, []);
  return (
    <span ref={box} className="contents" data-rests={rests || undefined}>
      <SubmitButton size="act">{children}</SubmitButton>
    </span>
  );
}
