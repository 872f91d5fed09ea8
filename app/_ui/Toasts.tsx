"use client";
import { type ReactNode, Suspense, useCallback, useMemo, useRef, useState } from "react";
import { useKitWords } from "./kitWords";
import { Said } from "./Said";
import { Shapes } from "./Shapes";
import { ToastLine } from "./ToastLine";
import { ToastContext, type ToastText } from "./toastContext";
import { useEarlyChanges } from "./useEarlyChanges";

/** Stands around each page. Holds what is said in passing, at the foot of the screen, read out politely. */
export function Toasts({ children }: { children: ReactNode }) {
  const [lines, setLines] = useState<readonly (ToastText & { id: number })[]>([]);
  const words = useKitWords();
  const count = useRef(0);
  useEarlyChanges();
  const speaker = useMemo(
    () => ({
      say: (toast: ToastText) => {
        count.current += 1;
        const id = count.current;
        setLines((now) => [...now.slice(-2), { ...toast, id }]);
      },
    }),
    [],
  );
  const drop = useCallback((id: number) => setLines((now) => now.filter((line) => line.id !== id)), []);
  return (
    <ToastContext value={speaker}>
      <Shapes />
      {children}
      <Suspense fallback={null}>
        <Said />
      </Suspense>
      <section
        aria-label={words.messages}
        aria-live="polite"
        className="pointer-events-none fixed inset-x-4 bottom-[calc(var(--foot)+0.375rem)] z-20 flex flex-col items-center gap-2 rail:bottom-6 max-rail:*:not-last:hidden print:hidden"
      >
        {lines.map((line) => (
          <ToastLine key={line.id} line={line} onGone={() => drop(line.id)} />
        ))}
      </section>
    </ToastContext>
  );
}
