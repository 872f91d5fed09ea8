import Link from "next/link";
import { Shape } from "@/app/_ui/Shape";
import type { QuoteWarning } from "@/lib/domain/quoting/result";

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
            {slug && w.place === "labour rates" && (
              <Link
                href={`/s/${slug}/shop/prices`}
                className="ml-2 inline-flex min-h-6 items-center whitespace-nowrap text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              >
                Set the rate
              </Link>
            )}
            {slug && w.partId !== undefined && (
              <Link
                href={`/s/${slug}/stock/${w.partId}/edit`}
                className="ml-2 inline-flex min-h-6 items-center whitespace-nowrap text-brass underline underline-offset-4 pointer-coarse:min-h-12"
              >
                Change the part
              </Link>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}
