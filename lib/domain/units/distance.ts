import { convert } from "./convert";
import { shownUnit, type UnitSystem } from "./systems";

/** The unit in which a shop's odometers are read, by its unit system ("metric", "uk" or "us"). */
export const distanceUnit = (units: string): "km" | "mi" =>
  shownUnit(units as UnitSystem, "distance").unit === "mi" ? "mi" : "km";

/** Kept kilometres as the shop reads them: whole kilometres or whole miles (1 mi = 1,609.344 m, international yard and pound agreement of 1959). */
export function shownDistance(km: number, units: string): number {
  return Math.round(convert(km, "km", distanceUnit(units)));
}

/** A typed distance as kept: whole kilometres. Whole miles come back as they were typed. */
export function keptKm(typed: number | null, units: string): number | null {
  return typed === null ? null : Math.round(convert(typed, distanceUnit(units), "km"));
}
