"use client";
import { useEffect, useEffectEvent, useRef, useState } from "react";
import { Shape } from "@/app/_ui/Shape";
import type { Writing } from "@/lib/schemas/whileWriting";

const PAUSE_MS = 350;

/**
 * What the checks say of the item as it is typed now, before it is saved. The same pure checks as on the server run here in the
 * browser: the answer comes without the network, and asking costs nobody else's page. They are fetched on the first key.
 */
export function LiveProblems({ writing, one }: { writing: Writing; one: string }) {
  const box = useRef<HTMLDivElement>(null);
  const [said, setSaid] = useState<readonly string[]>();
  const check = useEffectEvent(async () => {
    const form = box.current?.closest("form");
    if (!form) return;
    const [{ saidWhileWriting }, { formObject }] = await Promise.all([
      import("@/lib/schemas/whileWriting"),
      import("@/lib/schemas/formObject"),
    ]);
    if (box.current) setSaid(saidWhileWriting(writing, formObject(new FormData(form))));
  });
  useEffect(() => {
    const form = box.current?.closest("form");
    let waiting: ReturnType<typeof setTimeout> | undefined;
    const later = () => {
      clearTimeout(waiting);
      waiting = setTimeout(check, PAUSE_MS);
    };
    form?.addEventListener("input", later);
    return () => {
      clearTimeout(waiting);
      form?.removeEventListener("input", later);
    };
  }, []);
  return (
    <div ref={box} role="status" aria-label="As typed now" className="mb-3 text-[15px]">
      {said?.length === 0 && <p className="text-soft">{`The checks find nothing against this ${one}.`}</p>}
      {said && said.length > 0 && (
        <div className="border-oxide border-l-4 bg-oxide-wash px-3.5 py-2.5">
          <p className="font-semibold">Saved like this, it could not be published:</p>
          <ul className="mt-1 max-h-64 overflow-y-auto">
            {said.map((line) => (
              <li key={line} className="flex items-baseline gap-2 py-0.5">
                <Shape shape="diamond" tone="oxide" />
                <span>{line}</span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </div>
  );
}
