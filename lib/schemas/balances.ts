import { z } from "zod";
import {
  BAND_FROM,
  COMMON_BAND_KPA,
  VACUUM_UNITS,
  type VacuumUnit,
  vacuumIn,
} from "../domain/procedures/vacuum";
import { recordId } from "./ids";
import { readTyped, shortText, typedNumber } from "./typedNumber";

/** A vacuum cannot be more than the air around. */
const MOST_KPA = 100;
const most = (unit: VacuumUnit) => Math.floor(vacuumIn(MOST_KPA, "kPa", unit));
const inside = (value: number | null | undefined, unit: VacuumUnit): value is number =>
  typeof value === "number" && value >= 0 && value <= most(unit);

/** `values.<position>`: what each carburettor's gauge says. A blank band with common practice is ours. */
export const BalanceSchema = z
  .object({
    bikeId: recordId,
    jobId: recordId.optional(),
    stepId: recordId.optional(),
    unit: z.enum(VACUUM_UNITS, "Choose the unit that the gauges read in."),
    values: z.record(z.string().regex(/^[1-4]$/), z.string().max(40)).default({}),
    rpm: typedNumber({ name: "The engine's speed", low: 300, high: 8000, unit: "rpm", whole: true }),
    band: z.string().max(40).default(""),
    bandFrom: z.enum(BAND_FROM, "Say whose band this is."),
    note: shortText(200, "The note"),
  })
  .transform(({ values, band, ...form }, context) => {
    const tell = (path: string[], message: string) => context.addIssue({ code: "custom", path, message });
    const range = `from 0 to ${most(form.unit)} ${form.unit}`;
    const readings = Object.entries(values).flatMap(([position, text]) => {
      const value = readTyped(text);
      if (inside(value, form.unit)) return [{ carburettor: Number(position), value }];
      tell(["values", position], `Enter the vacuum of this carburettor, ${range}.`);
      return [];
    });
    const wanted = readTyped(band);
    if (form.bandFrom === "practice" && wanted !== null)
      tell(["bandFrom"], "Say whose band this is: the maker's or the shop's own.");
    if (form.bandFrom !== "practice" && !(inside(wanted, form.unit) && wanted > 0))
      tell(
        ["band"],
        `Enter the greatest difference that is wanted, above 0 and up to ${most(form.unit)} ${form.unit}.`,
      );
    const common = Number(vacuumIn(COMMON_BAND_KPA, "kPa", form.unit).toPrecision(3));
    return { ...form, readings, band: wanted ?? common };
  });
export type BalanceInput = z.output<typeof BalanceSchema> & { key?: string | undefined };
