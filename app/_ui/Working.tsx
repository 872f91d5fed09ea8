"use client";
import type { ReactNode } from "react";
import { useFormStatus } from "react-dom";

/** Says what goes on while the form it stands in is on its way: thousands of rows take a moment. */
export function Working({ children }: { children: ReactNode }) {
  const { pending } = useFormStatus();
  return (
    <div role="status" className="mt-2 min-h-7 text-[15px] text-soft">
      {pending && (
        <span className="inline-flex flex-wrap items-center gap-3">
          <progress
            aria-label="On its way"
            className="h-2.5 w-40 animate-pulse appearance-none border border-edge bg-brass-wash motion-reduce:animate-none [&::-webkit-progress-bar]:bg-transparent"
          />
          {children}
        </span>
      )}
    </div>
  );
}
