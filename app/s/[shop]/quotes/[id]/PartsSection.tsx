import { dateText, figureText } from "@/app/_ui/format";
import { Section } from "@/app/_ui/Section";
import { Shape } from "@/app/_ui/Shape";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { FlowsLike } from "@/lib/domain/tuning/sameThread";
import { SameThread } from "../../_parts/SameThread";

/** Jets of other drawers that could be screwed in, by the code of the part that is short. */
export type Instead = Readonly<Record<string, readonly FlowsLike[]>>;

interface Props {
  instead: Instead;
  slug: string;
  parts: QuoteView["parts"];
  ready: QuoteView["ready"];
  locale: string;
}

/** What the work takes out of stock: where each part is, and the first day on which all of them can be there. */
export function PartsSection({ parts, ready, instead, slug, locale }: Props) {
  if (parts.length === 0) return null;
  return (
    <Section title="Parts">
      <p className="mb-1 text-[15px]">{readyWords(ready, locale)}</p>
      <ul className="text-[15px]">
        {parts.map((p) => (
          <li
            key={`${p.option} ${p.operation} ${p.code}`}
            className="flex items-baseline gap-2 border-hair border-b py-1.5"
          >
            <Shape
              shape={p.shortMilli > 0 ? "triangle" : "filled"}
              tone={p.shortMilli > 0 ? "brass" : "pine"}
            />
            <span className="min-w-0 flex-1">
              {p.name}
              <span className="block text-[14px] text-soft">{p.note}</span>
              <SameThread jets={instead[p.code]} slug={slug} locale={locale} />
            </span>
            <span className="whitespace-nowrap font-mono">
              {figureText(p.quantityMilli / 1000, locale)}
              {p.unit === "each" ? "" : ` ${p.unit}`}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  );
}

function readyWords({ on, unknown, short }: Props["ready"], locale: string): string {
  if (short === 0) return "All of them are here.";
  if (on !== null) return `All of them can be here on ${dateText(on, locale)}, not sooner.`;
  return `Nobody knows yet when all of them can be here: ${unknown.join(", ")}.`;
}
