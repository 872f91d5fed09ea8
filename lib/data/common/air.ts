import { weatherLatitude } from "@/lib/domain/air/places";
import { airWith } from "@/lib/domain/air/typed";
import { typicalWeather } from "@/lib/domain/air/typical";
import type { Air } from "@/lib/domain/air/weather";
import { dayIn } from "@/lib/domain/schedule/days";
import { type Conditions, ConditionsSchema, SEASONS, type Season } from "@/lib/schemas/quotes";

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

/** Where a shop is, as far as its weather goes. */
export interface Home {
  readonly altitudeM: number;
  readonly latitude: number | null;
  readonly latitudeSouth: boolean;
}

/** A new quote's conditions: the shop's altitude in the season of today. */
export function conditionsToday(settings: Home & { zone: string }, now: Date): Conditions {
  const month = Number(dayIn(settings.zone, now).slice(5, 7));
  return {
    altitudeM: settings.altitudeM,
    season: seasonOf(month, weatherLatitude(settings) < 0),
    temperatureC: null,
    humidityPercent: null,
  };
}

/** The air that a sheet is set in today, where nobody measured it: typical for the month, and it says so by its blanks. */
export function sheetConditions(settings: Home & { zone: string }, now: Date): Conditions {
  return { ...conditionsToday(settings, now), month: Number(dayIn(settings.zone, now).slice(5, 7)) };
}

/** The air of some conditions: typical for the month, else the season, at the altitude and latitude, with what was typed over it. */
export function airOf(conditions: Conditions, latitude: number): Air {
  const month = conditions.month ?? monthOf(conditions.season, latitude < 0);
  return airWith(typicalWeather(month, latitude, conditions.altitudeM), {
    pressurePa: conditions.pressureHpa == null ? null : conditions.pressureHpa * 100,
    temperatureC: conditions.temperatureC,
    humidity: conditions.humidityPercent === null ? null : conditions.humidityPercent / 100,
  });
}

/** The air that as-found settings were right for: their sheet's conditions, else a mild season at the shop. */
export function baselineAir(sheet: unknown, altitudeM: number, latitude: number): Air {
  const told = ConditionsSchema.safeParse(sheet);
  const mild: Conditions = { altitudeM, season: SEASONS[3], temperatureC: null, humidityPercent: null };
  return airOf(told.success ? told.data : mild, latitude);
}

/** The air that a sheet was set in, as it says; null for a sheet that says none. */
export function airOfSheet(conditions: unknown, latitude: number): Air | null {
  const told = ConditionsSchema.safeParse(conditions);
  return told.success ? airOf(told.data, latitude) : null;
}
