import { airOf, type Conditions, SEASONS, seasonOf } from "@/lib/domain/air/conditions";
import type { Air } from "@/lib/domain/air/weather";
import { dayIn } from "@/lib/domain/schedule/days";
import { ConditionsSchema } from "@/lib/schemas/quotes";

/** A new quote's conditions: the shop's altitude in the season of today. */
export function conditionsToday(
  settings: { altitudeM: number; latitudeSouth: boolean; zone: string },
  now: Date,
): Conditions {
  const month = Number(dayIn(settings.zone, now).slice(5, 7));
  return {
    altitudeM: settings.altitudeM,
    season: seasonOf(month, settings.latitudeSouth),
    temperatureC: null,
    humidityPercent: null,
  };
}

/** The air that as-found settings were right for: their sheet's conditions, else a mild season at the shop. */
export function baselineAir(sheet: unknown, altitudeM: number, south: boolean): Air {
  const told = ConditionsSchema.safeParse(sheet);
  const mild: Conditions = { altitudeM, season: SEASONS[3], temperatureC: null, humidityPercent: null };
  return airOf(told.success ? told.data : mild, south);
}
