import { figureText } from "@/app/_ui/format";
import { fromSi } from "@/lib/domain/units/convert";
import { type Shown, shownUnit, type UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";

/** An SI value as a shop reads it: 410 m, 1345 ft. */
export function shownText(shown: Shown, si: number, system: UnitSystem, locale: string): string {
  const { unit, decimals } = shownUnit(system, shown);
  return `${figureText(fromSi(si as never, unit as never), locale, decimals)} ${UNITS[unit].sign}`;
}

/** A ratio less one as signed per cent: +5.0 %. */
export function percentText(change: number, locale: string, decimals = 1): string {
  const text = figureText(change * 100, locale, decimals);
  return `${change > 0 ? "+" : ""}${text} %`;
}
