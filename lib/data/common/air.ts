import { standardAir } from "@/lib/domain/air/isa";
import { typicalWeather } from "@/lib/domain/air/typical";
import { type Air, airFromReading } from "@/lib/domain/air/weather";
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

/** The air that as-found settings were right for: their sheet's conditions, else a mild season at the shop. */
export function baselineAir(sheet: unknown, altitudeM: number, south: boolean): Air {
  const told = ConditionsSchema.safeParse(sheet);
  const mild: Conditions = { altitudeM, season: SEASONS[3], temperatureC: null, humidityPercent: null };
  return airOf(told.success ? told.data : mild, south);
}
