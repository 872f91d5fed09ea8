import { lazy, Suspense } from "react";
import { Section } from "@/app/_ui/Section";
import { Shape } from "@/app/_ui/Shape";
import type { PartsShown } from "./shown/parts";

/** What another drawer has, where a jet is short. */
const SameThread = lazy(async () => ({ default: (await import("../../_parts/SameThread")).SameThread }));

/** What the work takes out of stock: where each part is, and the first day on which all of them can be there. */
export function PartsSection({ parts, slug, locale }: { parts: PartsShown; slug: string; locale: string }) {
  if (parts.rows.length === 0) return null;
  return (
    <Section title="Parts">
      <p className="mb-1 text-[15px]">{parts.ready}</p>
      <ul className="text-[15px]">
        {parts.rows.map((p) => (
          <li key={p.key} className="flex items-baseline gap-2 border-hair border-b py-1.5">
            <Shape shape={p.short ? "triangle" : "filled"} tone={p.short ? "brass" : "pine"} />
            <span className="min-w-0 flex-1">
              {p.name}
              <span className="block text-[14px] text-soft">{p.note}</span>
              {p.instead && (
                <Suspense>
                  <SameThread jets={p.instead} slug={slug} locale={locale} />
                </Suspense>
              )}
            </span>
            <span className="whitespace-nowrap font-mono">{p.quantity}</span>
          </li>
        ))}
      </ul>
    </Section>
  );
}
