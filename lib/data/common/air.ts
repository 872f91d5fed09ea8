import type { Spot } from "@/lib/domain/air/climate";
import { airOf, type Conditions, SEASONS, seasonOf } from "@/lib/domain/air/conditions";
import { weatherSpot } from "@/lib/domain/air/places";
import type { Air } from "@/lib/domain/air/weather";
import { dayIn } from "@/lib/domain/schedule/days";
import { ConditionsSchema } from "@/lib/schemas/quotes";

/** Where a shop is, as far as its weather goes. */
export interface Home {
  readonly altitudeM: number;
  readonly latitude: number | null;
  readonly longitude: number | null;
  readonly latitudeSouth: boolean;
}

/** A new quote's conditions: the shop's altitude in the season of today. */
export function conditionsToday(settings: Home & { zone: string }, now: Date): Conditions {
  const month = Number(dayIn(settings.zone, now).slice(5, 7));
  return {
    altitudeM: settings.altitudeM,
    season: seasonOf(month, weatherSpot(settings).latitude < 0),
    temperatureC: null,
    humidityPercent: null,
  };
}

/** The air that a sheet is set in today, where nobody measured it: typical for the month, and it says so by its blanks. */
export function sheetConditions(settings: Home & { zone: string }, now: Date): Conditions {
  return { ...conditionsToday(settings, now), month: Number(dayIn(settings.zone, now).slice(5, 7)) };
}

/** The conditions that a sheet says; null for a sheet that says none. */
export function conditionsOf(sheet: unknown): Conditions | null {
  const told = ConditionsSchema.safeParse(sheet);
  return told.success ? told.data : null;
}

/** The air that as-found settings were right for: their sheet's conditions, else a mild season at the shop. */
export function baselineAir(sheet: unknown, altitudeM: number, spot: Spot): Air {
  const mild: Conditions = { altitudeM, season: SEASONS[3], temperatureC: null, humidityPercent: null };
  return airOf(conditionsOf(sheet) ?? mild, spot);
}

/** The air that a sheet was set in, as it says; null for a sheet that says none. */
export function airOfSheet(conditions: unknown, spot: Spot): Air | null {
  const told = conditionsOf(conditions);
  return told && airOf(told, spot);
}
