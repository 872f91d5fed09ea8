import { z } from "zod";
import type { SheetValue } from "@/lib/domain/sheets/check";
import { HOW_TYPED } from "@/lib/domain/tuning/modelFacts";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import { cursorId, recordId } from "./ids";
import { longText, numberProblem, readTyped, typedNumber } from "./typedNumber";
import { keptOf, TEMPERATURE, typedFigure } from "./typedUnits";

const PRESSURE = { kept: "hPa", decimals: 3, low: 500, high: 1100 } as const;

const perCarburettor = z
  .record(z.string().regex(/^[1-4]$/), z.record(z.string(), z.string().max(200)))
  .default({});

/** A sheet as a person records it: `values.<carburettor>.<setting>` and `how.<carburettor>.<setting>`; blank is not known. */
export const SheetSchema = z
  .object({
    bikeId: recordId,
    jobId: recordId.optional(),
    kind: z.enum(["asFound", "asLeft"], "Choose as found or as left."),
    odometerKm: typedNumber({ name: "The odometer", low: 0, high: 2_000_000, unit: "km", whole: true }),
    note: longText(2000, "The note"),
    temperature: typedFigure,
    temperatureUnit: z.enum(["degC", "degF"]).default("degC"),
    pressure: typedFigure,
    pressureUnit: z.enum(["hPa", "inHg"]).default("hPa"),
    humidityPercent: typedNumber({ name: "The humidity", low: 0, high: 100, unit: "%" }),
    values: perCarburettor,
    how: perCarburettor,
  })
  .transform((form, context) => {
    const { values: typed, how, temperature, temperatureUnit, pressure, pressureUnit, ...rest } = form;
    const temperatureC = keptOf(
      { ...TEMPERATURE, field: "temperature", typed: temperature, unit: temperatureUnit, optional: true },
      context,
    );
    const pressureHpa = keptOf(
      { ...PRESSURE, field: "pressure", typed: pressure, unit: pressureUnit, optional: true },
      context,
    );
    const values: SheetValue[] = [];
    for (const [carburettor, settings] of Object.entries(typed))
      for (const [setting, text] of Object.entries(settings)) {
        const def = SETTINGS.find((each) => each.key === setting);
        const value = readTyped(text);
        if (value === null) continue;
        const refuse = (part: "values" | "how", message: string) =>
          context.addIssue({ code: "custom", path: [part, carburettor, setting], message });
        const problem = def ? numberProblem(value, def) : `"${setting}" is no setting: leave it out.`;
        const known = HOW_TYPED.find((each) => each === how[carburettor]?.[setting]);
        if (problem || value === undefined) refuse("values", problem ?? "Enter a number.");
        else if (!known) refuse("how", `${def?.name}: say how it is known: measured, read or assumed.`);
        else values.push({ carburettor: Number(carburettor), setting, value, how: known });
      }
    if (values.length === 0 && context.issues.length === 0)
      context.addIssue({
        code: "custom",
        path: ["values"],
        message: "Nothing is filled in: enter at least one setting.",
      });
    return { ...rest, temperatureC, pressureHpa, values };
  });

export const SheetQuery = z.object({ after: cursorId });
