import { z } from "zod";
import type { Conditions } from "@/lib/domain/air/conditions";
import { fromSi, toSi } from "@/lib/domain/units/convert";
import { shownUnit, type UnitSystem } from "@/lib/domain/units/systems";
import { UNITS } from "@/lib/domain/units/units";
import { id, version } from "./packages";
import { ConditionsSchema } from "./quotes";

const LOWEST_M = -400;
const HIGHEST_M = 5000;
const COLDEST_C = -39;
const HOTTEST_C = 55;

/** Decimals beyond these are the noise of changing units: a foot or a tenth of a degree typed comes back as typed. */
const near = (value: number, decimals: number) => Number(value.toFixed(decimals)) + 0;
const metresOf = (typed: number, unit: "m" | "ft") => (unit === "m" ? typed : near(toSi(typed, unit), 2));
const celsiusOf = (typed: number, unit: "degC" | "degF") =>
  unit === "degC" ? typed : near(fromSi(toSi(typed, unit), "degC"), 4);

/** Conditions as a shop reads them: 1350 for 411.48 m in feet, 71 for 21.6667 °C in Fahrenheit. */
export function shownConditions({ altitudeM, temperatureC }: Conditions, system: UnitSystem) {
  const altitudeUnit = shownUnit(system, "altitude").unit === "ft" ? "ft" : "m";
  const temperatureUnit = shownUnit(system, "airTemperature").unit === "degF" ? "degF" : "degC";
  return {
    altitude: near(fromSi(toSi(altitudeM, "m"), altitudeUnit), 0),
    altitudeUnit,
    temperature: temperatureC === null ? null : near(fromSi(toSi(temperatureC, "degC"), temperatureUnit), 1),
    temperatureUnit,
  } as const;
}

const sign = (unit: "m" | "ft" | "degC" | "degF") => UNITS[unit].sign;
const typedNumber = (given: unknown) => {
  const text = typeof given === "string" ? given.trim().replace(",", ".") : given;
  return text === "" || text === undefined ? null : text;
};
const number = z.preprocess(typedNumber, z.union([z.null(), z.coerce.number()], "Enter a number."));

/** The conditions form: altitude and temperature in the units they were shown in, kept in metres and degrees Celsius. */
export const SetConditionsSchema = z
  .object({
    id,
    version,
    altitude: number,
    altitudeUnit: z.enum(["m", "ft"]).default("m"),
    season: ConditionsSchema.shape.season,
    temperature: number,
    temperatureUnit: z.enum(["degC", "degF"]).default("degC"),
    humidityPercent: ConditionsSchema.shape.humidityPercent,
  })
  .transform((form, context) => {
    const { altitude, altitudeUnit, temperature, temperatureUnit, ...rest } = form;
    const wrong = (path: string, low: number, high: number, unit: string, more: string) =>
      context.addIssue({ code: "custom", path: [path], message: `Enter ${low} to ${high} ${unit}${more}.` });
    const altitudeM = altitude === null ? Number.NaN : metresOf(altitude, altitudeUnit);
    if (!(altitudeM >= LOWEST_M && altitudeM <= HIGHEST_M)) {
      const [low = 0, high = 0] = [LOWEST_M, HIGHEST_M].map((m) =>
        Math.trunc(near(fromSi(toSi(m, "m"), altitudeUnit), 4)),
      );
      wrong("altitude", low, high, sign(altitudeUnit), "");
    }
    const temperatureC = temperature === null ? null : celsiusOf(temperature, temperatureUnit);
    if (temperatureC !== null && !(temperatureC >= COLDEST_C && temperatureC <= HOTTEST_C)) {
      const [low = 0, high = 0] = [COLDEST_C, HOTTEST_C].map((c) =>
        Math.trunc(near(fromSi(toSi(c, "degC"), temperatureUnit), 4)),
      );
      wrong("temperature", low, high, sign(temperatureUnit), ", or leave it empty");
    }
    return { ...rest, altitudeM, temperatureC };
  });
export type SetConditions = z.output<typeof SetConditionsSchema>;
