import { convert } from "./convert";
import { shownUnit, type UnitSystem } from "./systems";

/** A shop's altitude is kept in whole metres, about three feet each: feet typed by fives come back as they were typed. */
const FEET = 5;

/** The unit in which a shop reads altitudes. */
export const altitudeUnit = (system: UnitSystem): "m" | "ft" =>
  shownUnit(system, "altitude").unit === "ft" ? "ft" : "m";

/** A shop's own altitude as it reads it: whole metres, or feet (1 ft = 0.3048 m, international yard and pound agreement of 1959) by fives. */
export function shownAltitude(metres: number, system: UnitSystem): number {
  const unit = altitudeUnit(system);
  return unit === "m" ? Math.round(metres) : Math.round(convert(metres, "m", unit) / FEET) * FEET + 0;
}
