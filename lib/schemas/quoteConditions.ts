import { z } from "zod";
import type { Conditions } from "@/lib/domain/air/conditions";
import { altitudeUnit } from "@/lib/domain/units/altitude";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { temperatureUnit } from "@/lib/domain/units/temperature";
import { id, version } from "./packages";
import { ConditionsSchema } from "./quotes";
import { keptOf, shownIn, TEMPERATURE, typedFigure } from "./typedUnits";

const ALTITUDE = { kept: "m", decimals: 2, low: -400, high: 5000 } as const;

/** Conditions as a shop reads them: 1350 for 411.48 m in feet, 71 for 21.6667 °C in Fahrenheit. */
export function shownConditions({ altitudeM, temperatureC }: Conditions, system: UnitSystem) {
  const unit = altitudeUnit(system);
  const degrees = temperatureUnit(system);
  return {
    altitude: shownIn(altitudeM, "m", unit, 0),
    altitudeUnit: unit,
    temperature: temperatureC === null ? null : shownIn(temperatureC, "degC", degrees, 1),
    temperatureUnit: degrees,
  } as const;
}

/** The conditions form: altitude and temperature in the units they were shown in, kept in metres and degrees Celsius. */
export const SetConditionsSchema = z
  .object({
    id,
    version,
    altitude: typedFigure,
    altitudeUnit: z.enum(["m", "ft"]).default("m"),
    season: ConditionsSchema.shape.season,
    temperature: typedFigure,
    temperatureUnit: z.enum(["degC", "degF"]).default("degC"),
    humidityPercent: ConditionsSchema.shape.humidityPercent,
  })
  .transform((form, context) => {
    const { altitude, altitudeUnit, temperature, temperatureUnit, ...rest } = form;
    const altitudeM = keptOf(
      { ...ALTITUDE, field: "altitude", typed: altitude, unit: altitudeUnit },
      context,
    ) as number;
    const temperatureC = keptOf(
      { ...TEMPERATURE, field: "temperature", typed: temperature, unit: temperatureUnit, optional: true },
      context,
    );
    return { ...rest, altitudeM, temperatureC };
  });
export type SetConditions = z.output<typeof SetConditionsSchema>;
