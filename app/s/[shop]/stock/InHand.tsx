import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import type { OneTap as Use } from "@/lib/data/jobs/takePart";
import type { StockRow } from "@/lib/data/stock/parts";
import { amountText } from "./amount";
import { OneTap } from "./OneTap";
import { tapShown } from "./tap";

export interface InHandProps {
  shop: string;
  locale: string;
  parts: readonly StockRow[];
  taps: ReadonlyMap<number, readonly Use[]>;
}

/** The few parts a search found, each with its use for the job in work in one tap. On the floor's small screens. */
export function InHand({ shop, locale, parts, taps }: InHandProps) {
  return (
    <Section title="Found" className="xl:hidden">
      <ul>
        {parts.map((part) => {
          const amount = (milli: number) => amountText(milli, part.unit, locale);
          const own = taps.get(part.id) ?? [];
          return (
            <li key={part.id} className="border-hair border-b py-2.5">
              <div className="flex flex-wrap items-baseline gap-x-4">
                <Link
                  href={`/s/${shop}/stock/${part.id}`}
                  className="inline-flex min-h-8 items-center font-mono font-semibold text-lg pointer-coarse:min-h-12"
                >
                  {part.code}
                </Link>
                <span className="min-w-0 flex-1 text-[15px]">
                  <span className="font-mono">{amount(part.onHandMilli)}</span> on hand,{" "}
                  <span className="font-mono">{amount(part.freeMilli)}</span> free
                  {part.bin && `; bin ${part.bin}`}
                </span>
              </div>
              {own.length > 0 ? (
                <div className="mt-1.5 grid gap-2">
                  {own.map((tap) => (
                    <OneTap
                      key={`${tap.jobId} ${tap.reservationId}`}
                      shop={shop}
                      partId={part.id}
                      code={part.code}
                      tap={tapShown(tap, part.unit, locale)}
                    />
                  ))}
                </div>
              ) : (
                <p className="text-[14px] text-soft">
                  {part.onHandMilli === 0 ? "None is left." : "No job in work holds any of it."}
                </p>
              )}
            </li>
          );
        })}
      </ul>
    </Section>
  );
}
