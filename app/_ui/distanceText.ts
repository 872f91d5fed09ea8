import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { figureText } from "./format";

/** Kept kilometres in the shop's unit: "24,180 km", "15,025 mi". */
export const distanceText = (km: number, units: string, locale: string): string =>
  `${figureText(shownDistance(km, units), locale)}\u00a0${distanceUnit(units)}`;
