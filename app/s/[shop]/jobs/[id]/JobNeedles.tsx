import { Link } from "@/app/_ui/Link";
import type { JobNeedle } from "@/lib/data/jobs/needles";
import { NeedleStations } from "../../_needle/NeedleStations";

const WORDS = {
  delivered: "as delivered",
  bought: "bought",
  reshaped: "reshaped here",
} as const;

/** The needles of a job at their stations: as found, target, as left. Nothing where nobody wrote one down. */
export function JobNeedles({
  needles,
  home,
  locale,
}: {
  needles: readonly JobNeedle[];
  /** The bike's page; absent on paper. */
  home?: string;
  locale: string;
}) {
  return needles.map(({ carburettor, found, target, made }) => {
    const now = made ?? found;
    return (
      <div key={carburettor} className="mb-4">
        <h3 className="font-semibold">
          {needles.length > 1 ? `Needle of carburettor ${carburettor}` : "Needle"}
          {now && <span className="font-normal text-soft">, {WORDS[now.record.origin]}</span>}
          {now?.record.marks && <span className="font-mono font-normal"> {now.record.marks}</span>}
        </h3>
        <NeedleStations
          caption={`Needle of carburettor ${carburettor}: diameters in mm`}
          columns={[
            { name: "As found", record: found?.record ?? null },
            { name: "Target", record: target?.record ?? null },
            { name: made?.state === "left" ? "As left" : "As made", record: made?.record ?? null },
          ]}
          locale={locale}
        />
        {now?.record.note && <p className="text-soft">{now.record.note}</p>}
        {home && (
          <Link href={`${home}/needle?c=${carburettor}`} className="in-line text-brass">
            Drawn to scale, with its history
          </Link>
        )}
      </div>
    );
  });
}
