import { Shape } from "@/app/_ui/Shape";
import type { QuoteWarning } from "@/lib/domain/quoting/result";
import { Mend } from "./Mend";

/** What stands against the quote: first what keeps it from being sent. With the shop's slug, a part to put right is linked. */
export function Warnings({
  slug,
  warnings,
}: {
  slug?: string | undefined;
  warnings: readonly QuoteWarning[];
}) {
  if (warnings.length === 0) return null;
  const ordered = [...warnings].sort((a, b) => Number(b.stops) - Number(a.stops));
  return (
    <ul aria-label="To look at" className="mt-3 text-[15px]">
      {ordered.map((w) => (
        <li key={w.message} className="flex items-baseline gap-2 border-hair border-b py-2">
          <Shape shape={w.stops ? "diamond" : "triangle"} tone={w.stops ? "oxide" : "brass"} />
          <span>
            {w.stops && <strong className="text-oxide">Not to be sent yet: </strong>}
            {w.message} {w.remedy && <span className="text-soft">{w.remedy}</span>}
            {slug && <Mend slug={slug} warning={w} />}
          </span>
        </li>
      ))}
    </ul>
  );
}
