import { standardAir } from "./isa";
import { typicalWeather } from "./typical";
import { type Air, airFromReading } from "./weather";

export const SEASONS = ["summer", "autumn", "winter", "spring"] as const;
export type Season = (typeof SEASONS)[number];

/** The air that settings are computed for: metres, degrees Celsius, percent. Without a temperature it is the season's typical air at the altitude. */
export type Conditions = {
  readonly altitudeM: number;
  readonly season: Season;
  readonly temperatureC: number | null;
  readonly humidityPercent: number | null;
};

/** The season of a month (1 to 12) by the months' usual naming; south of the equator half a year on. */
export function seasonOf(month: number, south: boolean): Season {
  const third = Math.floor(((month + (south ? 6 : 0)) % 12) / 3);
  return (["winter", "spring", "summer", "autumn"] as const)[third] ?? "spring";
}

/** The middle month of a season. */
export function monthOf(season: Season, south: boolean): number {
  const north = { winter: 1, spring: 4, summer: 7, autumn: 10 }[season];
  return south ? ((north + 5) % 12) + 1 : north;
}

/** The air of some conditions: the season's typical air at the altitude, with the temperature and humidity given. */
export function airOf(conditions: Conditions, south: boolean): Air {
  const typical = typicalWeather(
    monthOf(conditions.season, south),
    south ? "south" : "north",
    conditions.altitudeM,
  );
  if (conditions.temperatureC === null && conditions.humidityPercent === null) return typical;
  return airFromReading({
    stationPa: standardAir(conditions.altitudeM).pressurePa,
    temperatureC: conditions.temperatureC ?? typical.temperatureK - 273.15,
    humidity: conditions.humidityPercent === null ? typical.humidity : conditions.humidityPercent / 100,
  });
}
