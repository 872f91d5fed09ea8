import type { Conditions } from "@/lib/domain/air/conditions";
import { altitudeUnit, shownAltitude } from "@/lib/domain/units/altitude";
import { convert } from "@/lib/domain/units/convert";
import { shownUnit, type UnitSystem } from "@/lib/domain/units/systems";
import { temperatureUnit } from "@/lib/domain/units/temperature";
import { UNITS, type Unit } from "@/lib/domain/units/units";
import type { PaperWords } from "@/lib/words/papers";
import { numberText } from "./format";

/** The air that settings hold for, as far as it was said, in a shop's units: what is typical of the season is not written as if measured. */
export function airText(air: Conditions, units: string, locale: string, words: PaperWords): string {
  const system = units as UnitSystem;
  const said = (value: number, kept: Unit, unit: Unit, decimals: number) =>
    `${numberText(Number(convert<Unit>(value, kept, unit).toFixed(decimals)), locale)}\u00a0${UNITS[unit].sign}`;
  const altitude = numberText(shownAltitude(air.altitudeM, system), locale);
  const pressure = shownUnit(system, "airPressure");
  return [
    `${altitude}\u00a0${UNITS[altitudeUnit(system)].sign}`,
    words.seasons[air.season] ?? air.season,
    air.temperatureC === null ? "" : said(air.temperatureC, "degC", temperatureUnit(system), 1),
    air.pressureHpa == null ? "" : said(air.pressureHpa, "hPa", pressure.unit, pressure.decimals),
    air.humidityPercent === null ? "" : words.humidity(numberText(air.humidityPercent, locale)),
  ]
    .filter(Boolean)
    .join(", ");
}
