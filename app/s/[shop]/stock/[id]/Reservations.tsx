import { Link } from "@/app/_ui/Link";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { OneTap as Use } from "@/lib/data/jobs/takePart";
import type { PartView } from "@/lib/data/stock/parts";
import { amountText } from "../amount";
import { OneTap } from "../OneTap";
import { tapShown } from "../tap";
import { Release } from "./Release";

export interface ReservationsProps {
  shop: string;
  part: PartView;
  locale: string;
  mayWrite: boolean;
  /** What of it can be used now, for jobs in work. */
  taps: readonly Use[];
}

/** Which jobs the part is reserved for, and which of them are short of it. */
export function Reservations({ shop, part, locale, mayWrite, taps }: ReservationsProps) {
  const text = (milli: number) => amountText(milli, part.unit, locale);
  return (
    <Section title="Reserved for">
      {part.reservations.length === 0 && <p className="text-soft">No job holds or wants it now.</p>}
      {taps.length > 0 && (
        <div className="mt-1 flex flex-wrap gap-2.5">
          {taps.map((tap) => (
            <OneTap
              key={`${tap.jobId} ${tap.reservationId}`}
              shop={shop}
              partId={part.id}
              code={part.code}
              tap={tapShown(tap, part.unit, locale)}
            />
          ))}
        </div>
      )}
      <ul>
        {part.reservations.map((reservation) => (
          <li
            key={reservation.id}
            className="flex flex-wrap items-baseline gap-x-4 gap-y-1 border-hair border-b py-2"
          >
            <Link
              href={`/s/${shop}/jobs/${reservation.job.id}`}
              className="inline-flex min-h-6 items-center pointer-coarse:min-h-12 font-semibold"
            >
              Job {reservation.job.number}
            </Link>
            <span className="min-w-0 flex-1">{reservation.job.title}</span>
            <span className="font-mono">{text(reservation.reservedMilli)}</span>
            {reservation.shortMilli > 0 ? (
              <State shape="diamond" tone="brass">
                short of {text(reservation.shortMilli)}
              </State>
            ) : (
              <State shape="filled">held</State>
            )}
            {mayWrite && (
              <Release
                shop={shop}
                partId={part.id}
                reservationId={reservation.id}
                job={reservation.job.number}
              />
            )}
          </li>
        ))}
      </ul>
    </Section>
  );
}
