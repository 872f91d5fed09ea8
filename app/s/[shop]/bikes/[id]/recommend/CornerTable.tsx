import { WHY } from "@/app/_documents/recommendReasons";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { RECKON_CELL, ReckonTable } from "@/app/_ui/ReckonTable";
import { State } from "@/app/_ui/State";
import type { CornerOutcome } from "@/lib/domain/bench/recommendTypes";

/** How the one setting fares in each air it is wanted for; the worst is named. */
export function CornerTable({
  corners,
  worst,
  why,
  locale,
}: {
  corners: readonly CornerOutcome[];
  worst: string;
  /** The address that answers what one of its figures rests on. */
  why: (of: string) => string;
  locale: string;
}) {
  return (
    <ReckonTable head={["Where", "Oxygen", "Exact main", "Off target", "λ above 0.92"]}>
      {corners.map((c) => (
        <tr key={c.name} className="border-hair border-b">
          <th scope="row" className="py-1.5 text-start font-normal">
            {c.name}{" "}
            {c.name === worst && corners.length > 1 && (
              <State shape="triangle" tone="brass">
                worst
              </State>
            )}
          </th>
          <td className={RECKON_CELL}>
            <Opens
              name="Oxygen against the settings' own air"
              because={why(WHY.corner(c.name))}
              firmness={c.air.firmness}
            >
              {figureText(c.density * 100, locale, 1)} %
            </Opens>
          </td>
          <td className={RECKON_CELL}>{c.exact === null ? "–" : figureText(c.exact, locale, 1)}</td>
          <td className={RECKON_CELL}>
            {c.phiError === null
              ? "–"
              : `${figureText(Math.abs(c.phiError) * 100, locale, 1)} % ${c.phiError < 0 ? "lean" : "rich"}`}
          </td>
          <td className={RECKON_CELL}>{c.leanRisk === null ? "–" : `${Math.round(c.leanRisk * 100)} %`}</td>
        </tr>
      ))}
    </ReckonTable>
  );
}
