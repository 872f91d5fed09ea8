"use client";
import { type ReactNode, useEffect, useId, useRef } from "react";

interface StepHeadingProps {
  jobId: number;
  stepId: number;
  /** "Step 5 of 10". */
  at: ReactNode;
  name: string;
}

/** The step of each card that was looked at last: a page that is loaded anew knows none. */
let seen: { readonly jobId: number; readonly stepId: number } | undefined;

/** What the step is called. Once the step before is passed, focus stands here, so that a screen reader says what comes now. */
export function StepHeading({ jobId, stepId, at, name }: StepHeadingProps) {
  const id = useId();
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    const before = seen;
    seen = { jobId, stepId };
    if (before?.jobId !== jobId || before.stepId === stepId) return;
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: "start" });
  }, [jobId, stepId]);
  return (
    <>
      <p id={id} className="mt-2 text-soft">
        {at}
      </p>
      <h2
        ref={heading}
        tabIndex={-1}
        aria-describedby={id}
        className="mb-2 font-bold text-[26px] leading-tight outline-none"
      >
        {name}
      </h2>
    </>
  );
}
