import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { RECKON_CELL, ReckonTable } from "@/app/_ui/ReckonTable";
import type { TripAnswer, TripCorner, TripSize } from "@/lib/domain/bench/tripTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { percentText, shownText } from "../shown";

/** Sizes shown on either side of the chosen one. */
const AROUND = 4;

/** A corner in the units a shop writes: "410 m, 8.0 °C". */
export function placeText(corner: TripCorner, system: UnitSystem, locale: string): string {
  return `${shownText("altitude", corner.place.altitudeM, system, locale)}, ${shownText("airTemperature", corner.place.temperatureC + 273.15, system, locale)}`;
}

/** Each corner of a trip and what it wants. */
export function Corners({
  corners,
  locale,
  system,
}: {
  corners: readonly TripCorner[];
  locale: string;
  system: UnitSystem;
}) {
  return (
    <ReckonTable head={["Where", "Oxygen", "By density, firm", "Whole model, judged", "Jet area", "Screw"]}>
      {corners.map((c) => (
        <tr key={c.name} className="border-hair border-b">
          <th scope="row" className="py-1.5 text-start font-normal">
            {placeText(c, system, locale)}
          </th>
          <td className={RECKON_CELL}>
            <Opens name="Oxygen against here" because={c.air.because} firmness={c.air.firmness}>
              {figureText(c.density * 100, locale, 1)} %
            </Opens>
          </td>
          <td className={RECKON_CELL}>
            <Opens name="Main jet by air density alone" because={c.byDensity.because} firmness="firm">
              {figureText(c.byDensity.size, locale)}
            </Opens>
          </td>
          <td className={RECKON_CELL}>{figureText(c.exact, locale, 1)}</td>
          <td className={RECKON_CELL}>{percentText(c.areaRatio - 1, locale)}</td>
          <td className={RECKON_CELL}>{c.screw ? figureText(c.screw.value, locale) : "–"}</td>
        </tr>
      ))}
    </ReckonTable>
  );
}

/** The sizes around the chosen one, each at its worst corner. */
export function Sizes({
  trip,
  fitted,
  richness,
  size,
  where,
}: {
  trip: TripAnswer;
  fitted: number;
  richness: (s: TripSize) => string;
  size: (value: number) => string;
  where: (name: string) => string;
}) {
  const word = (s: TripSize) =>
    [
      s.size === trip.chosen.size ? "chosen" : "",
      s.size === trip.runnerUp?.size ? "next best" : "",
      s.size === fitted ? "fitted" : "",
    ]
      .filter(Boolean)
      .join(", ");
  const at = trip.sizes.indexOf(trip.chosen);
  const near = trip.sizes.filter(
    (s, i) => Math.abs(i - at) <= AROUND || s.size === fitted || s === trip.runnerUp,
  );
  return (
    <ReckonTable head={["Size", "Worst at", "Off target", "Lean risk", "Drawer"]}>
      {near.map((s) => (
        <tr
          key={s.size}
          className={
            s.size === trip.chosen.size ? "border-hair border-b bg-brass-wash" : "border-hair border-b"
          }
        >
          <th scope="row" className="py-1.5 text-start font-mono font-normal">
            {size(s.size)} <span className="font-sans text-[13px] text-soft">{word(s)}</span>
          </th>
          <td className="py-1.5 pl-3 text-end">{where(s.worst)}</td>
          <td className={RECKON_CELL}>{richness(s)}</td>
          <td className={RECKON_CELL}>{Math.round(s.leanRisk * 100)} %</td>
          <td className={RECKON_CELL}>{s.free > 0 ? s.free : "–"}</td>
        </tr>
      ))}
    </ReckonTable>
  );
}
