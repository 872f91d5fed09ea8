"use client";
import { useState } from "react";
import { figureText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { WearReading } from "@/lib/domain/tuning/wear";

const CELL = "py-1.5 pl-3 text-end";

/** Rows shown before the others are folded away: those at their limit come first. */
const SHOWN = 8;

/** Wear limits beside what was measured: of the model's own parts, and of each bike on the card. */
export function Wear({
  own,
  bikes,
  slug,
  locale,
}: {
  own: readonly WearReading[];
  bikes: readonly {
    readonly bikeId: number;
    readonly name: string;
    readonly readings: readonly WearReading[];
  }[];
  slug: string;
  locale: string;
}) {
  const [opened, setOpened] = useState(false);
  const rows = [
    ...own.map((reading) => ({ key: reading.what, who: null, href: "", reading })),
    ...bikes.flatMap((bike) =>
      bike.readings.map((reading) => ({
        key: `${bike.bikeId} ${reading.what}`,
        who: bike.name,
        href: `/s/${slug}/bikes/${bike.bikeId}`,
        reading,
      })),
    ),
  ];
  if (rows.length === 0) return null;
  const order = { worn: 0, within: 1, unknown: 2 } as const;
  const sorted = [...rows].sort((a, b) => order[a.reading.state] - order[b.reading.state]);
  const rest = sorted.slice(SHOWN);
  return (
    <Section title="Wear against its limits">
      <Readings rows={sorted.slice(0, SHOWN)} locale={locale} />
      {rest.length > 0 && (
        <details className="mt-2" onToggle={(event) => event.currentTarget.open && setOpened(true)}>
          <summary className="in-line text-brass">{rest.length} more</summary>
          {opened && <Readings rows={rest} locale={locale} />}
        </details>
      )}
    </Section>
  );
}

interface Row {
  readonly key: string;
  readonly who: string | null;
  readonly href: string;
  readonly reading: WearReading;
}

function Readings({ rows, locale }: { rows: readonly Row[]; locale: string }) {
  const text = (value: number, unit: string) => `${figureText(value, locale)} ${unit}`;
  return (
    <div className="overflow-x-auto">
      <table className="w-full border-collapse text-[15px]">
        <thead>
          <tr className="text-[13px] text-soft">
            {["What", "Limit", "Measured", "Is"].map((head) => (
              <th
                key={head}
                scope="col"
                className="border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start"
              >
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, who, href, reading }) => (
            <tr key={key} className="border-hair border-b">
              <th scope="row" className="py-1.5 text-start font-normal">
                {reading.what}
                {reading.next && (
                  <span className="block text-[14px] text-soft">
                    Next at{" "}
                    <Opens name={`${reading.what}, next at`} because={reading.next.because}>
                      {text(reading.next.atKm, "km")}
                    </Opens>
                  </span>
                )}
                {who && (
                  <Link href={href} className="block text-[14px] text-soft">
                    {who}
                  </Link>
                )}
              </th>
              <td className={`${CELL} font-mono`}>
                {reading.because ? (
                  <Opens name={`${reading.what}, limit`} because={reading.because}>
                    {text(reading.limit, reading.unit)}
                  </Opens>
                ) : (
                  text(reading.limit, reading.unit)
                )}
              </td>
              <td className={`${CELL} font-mono`}>
                {reading.measured === null ? "–" : text(reading.measured, reading.unit)}
              </td>
              <td className={CELL}>
                {reading.state === "unknown" && <State shape="dash">not measured</State>}
                {reading.state === "within" && (
                  <State shape="filled" tone="pine">
                    within
                  </State>
                )}
                {reading.state === "worn" && (
                  <State shape="triangle" tone="oxide">
                    {reading.unit === "km" ? "due" : "at its limit"}
                  </State>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
