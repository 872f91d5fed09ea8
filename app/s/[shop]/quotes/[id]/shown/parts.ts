import { dateText, figureText } from "@/app/_ui/format";
import type { QuoteView } from "@/lib/domain/quoting/result";
import type { FlowsLike } from "@/lib/domain/tuning/sameThread";

export interface PartsShown {
  readonly ready: string;
  readonly rows: readonly {
    readonly key: string;
    readonly name: string;
    readonly note: string;
    readonly short: boolean;
    readonly quantity: string;
    /** Jets of other drawers that could be screwed in. */
    readonly instead?: readonly FlowsLike[];
  }[];
}

/** What the work takes out of stock, as it is shown. `instead`: by the code of the part that is short. */
export function partsShown(
  { parts, ready }: Pick<QuoteView, "parts" | "ready">,
  instead: Readonly<Record<string, readonly FlowsLike[]>>,
  locale: string,
): PartsShown {
  return {
    ready: readyWords(ready, locale),
    rows: parts.map((p) => {
      const jets = instead[p.code];
      return {
        key: `${p.option} ${p.operation} ${p.code}`,
        name: p.name,
        note: p.note,
        short: p.shortMilli > 0,
        quantity: `${figureText(p.quantityMilli / 1000, locale)}${p.unit === "each" ? "" : ` ${p.unit}`}`,
        ...(jets ? { instead: jets } : {}),
      };
    }),
  };
}

function readyWords({ on, unknown, short }: QuoteView["ready"], locale: string): string {
  if (short === 0) return "All of them are here.";
  if (on !== null) return `All of them can be here on ${dateText(on, locale)}, not sooner.`;
  return `Nobody knows yet when all of them can be here: ${unknown.join(", ")}.`;
}
