import type { Spot } from "../air/climate";
import { typicalWeather } from "../air/typical";

export type TripSeason = "summer" | "autumn" | "winter" | "spring" | "year";

/** Months of the seasons in the north, by their usual naming. */
const NORTH: Readonly<Record<TripSeason, readonly number[]>> = {
  spring: [3, 4, 5],
  summer: [6, 7, 8],
  autumn: [9, 10, 11],
  winter: [12, 1, 2],
  year: [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12],
};

/** How much colder a morning is than the afternoon the table speaks of. Source: judgement. */
const MORNING_K = 8;

/**
 * Temperatures (C) to expect in a season between two altitudes (m): the coldest month's morning up there, the warmest month's
 * afternoon down there, at a spot. Assumed. Source: typicalWeather (judgement). Throws OutOfRange for impossible altitudes.
 */
export function seasonRange(
  season: TripSeason,
  spot: Spot,
  lowM: number,
  highM: number,
): { readonly coldC: number; readonly warmC: number } {
  const south = spot.latitude < 0;
  const months = NORTH[season].map((month) => (south && season !== "year" ? ((month + 5) % 12) + 1 : month));
  const at = (altitudeM: number) =>
    months.map((month) => typicalWeather(month, spot, altitudeM).temperatureK - 273.15);
  return { coldC: Math.max(-39, Math.min(...at(highM)) - MORNING_K), warmC: Math.max(...at(lowM)) };
}
