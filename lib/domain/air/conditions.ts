import type { Spot } from "./climate";
import { airWith } from "./typed";
import { typicalWeather } from "./typical";
import type { Air } from "./weather";

export const SEASONS = ["summer", "autumn", "winter", "spring"] as const;
export type Season = (typeof SEASONS)[number];

/** The air that settings are computed for: metres, degrees Celsius, percent. Without a temperature it is the season's typical air at the altitude. */
export type Conditions = {
  readonly altitudeM: number;
  readonly season: Season;
  readonly temperatureC: number | null;
  readonly humidityPercent: number | null;
  /** Of a setting sheet: station pressure as measured, and the month (1 to 12) that stands in for what was not. */
  readonly pressureHpa?: number | null | undefined;
  readonly month?: number | undefined;
};

/** The season of a month (1 to 12) by the months' usual naming; south of the equator half a year on. */
export function seasonOf(month: number, south: boolean): Season {
  const third = Math.floor(((month + (south ? 6 : 0)) % 12) / 3);
  return (["winter", "spring", "summer", "autumn"] as const)[third] ?? "spring";
}

/** The middle month of a season. */
function monthOf(season: Season, south: boolean): number {
  const north = { winter: 1, spring: 4, summer: 7, autumn: 10 }[season];
  return south ? ((north + 5) % 12) + 1 : north;
}

/** The air of some conditions: typical for the month, else the season, at the altitude and spot, with what was typed over it. */
export function airOf(conditions: Conditions, spot: Spot): Air {
  const month = conditions.month ?? monthOf(conditions.season, spot.latitude < 0);
  return airWith(typicalWeather(month, spot, conditions.altitudeM), {
    pressurePa: conditions.pressureHpa == null ? null : conditions.pressureHpa * 100,
    temperatureC: conditions.temperatureC,
    humidity: conditions.humidityPercent === null ? null : conditions.humidityPercent / 100,
  });
}
