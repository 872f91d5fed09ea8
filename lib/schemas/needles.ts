import { z } from "zod";
import { NEEDLE_ORIGINS, type NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import { recordId } from "./ids";
import { longText, numberProblem, readTyped, shortText, typedNumber } from "./typedNumber";

const mm = z.number().min(0).max(200);

/** A needle as it is kept with a bike or a part. */
export const NeedleRecordSchema = z.strictObject({
  origin: z.enum(NEEDLE_ORIGINS),
  marks: z.string().max(60),
  stations: z
    .array(
      z.strictObject({
        atMm: mm,
        diameterMm: z.number().min(0.2).max(6),
        computed: z.literal(true).exactOptional(),
      }),
    )
    .max(80),
  micrometerMm: mm.nullable(),
  grooves: z.int().min(0).max(7).nullable(),
  grooveStepMm: mm.nullable(),
  grooveAt: z.int().min(0).max(7).nullable(),
  planeMm: z.number().min(-50).max(200).nullable(),
  note: z.string().max(500),
}) satisfies z.ZodType<NeedleRecord>;

const PLACE = { name: "The station's distance below the shoulder", low: 0, high: 120, unit: "mm" };
const THICK = { name: "The diameter", low: 0.5, high: 6, unit: "mm" };
/** Stations that the form has. */
export const NEEDLE_STATIONS = 8;

/** Rows of a form, `stations.<n>.at` and `stations.<n>.diameter`: both or neither, going down. */
const stations = z
  .record(z.string().regex(/^\d$/), z.record(z.string(), z.string().max(60)))
  .default({})
  .transform((rows, context) => {
    const tell = (row: string, cell: string, message: string) =>
      context.addIssue({ code: "custom", path: [row, cell], message });
    const read: { atMm: number; diameterMm: number }[] = [];
    for (const [row, cells] of Object.entries(rows).sort(([a], [b]) => Number(a) - Number(b))) {
      const [at, diameter] = [readTyped(cells.at ?? ""), readTyped(cells.diameter ?? "")];
      if (at === null && diameter === null) continue;
      const wrongAt = at === null ? "Enter how far below the shoulder this is." : numberProblem(at, PLACE);
      const wrong = diameter === null ? "Enter the diameter there." : numberProblem(diameter, THICK);
      const before = read.at(-1);
      if (wrongAt) tell(row, "at", wrongAt);
      else if (before && (at ?? 0) <= before.atMm)
        tell(row, "at", `This is not below the station before it, at ${before.atMm} mm.`);
      if (wrong) tell(row, "diameter", wrong);
      if (!wrongAt && !wrong) read.push({ atMm: at ?? 0, diameterMm: diameter ?? 0 });
    }
    if (read.length === 1 && context.issues.length === 0)
      tell("2", "at", "Measure at two stations at least: one makes no profile.");
    return read;
  });

const counted = (name: string) => typedNumber({ name, low: 0, high: 7, whole: true });

const needleFields = {
  origin: z.enum(NEEDLE_ORIGINS, "Say where the needle is from."),
  marks: shortText(60, "The marks"),
  stations,
  micrometerMm: typedNumber({ name: "The micrometer's step", low: 0.001, high: 0.05, unit: "mm" }),
  grooves: counted("The number of grooves"),
  grooveStepMm: typedNumber({ name: "The distance between grooves", low: 0.3, high: 3, unit: "mm" }),
  grooveAt: counted("The groove"),
  planeMm: typedNumber({ name: "The needle jet's depth", low: 0, high: 80, unit: "mm" }),
  note: longText(500, "The note"),
};

/** A needle of a part in stock. */
export const PartNeedleSchema = z.object({ id: recordId, ...needleFields });
export type PartNeedleInput = z.output<typeof PartNeedleSchema>;

/** A needle as a person measures it on a bike; blank is not known. Where it sits goes to the setting sheet. */
export const FittedNeedleSchema = z.object({
  bikeId: recordId,
  carburettor: z.coerce.number().int().min(1).max(4),
  jobId: recordId.optional(),
  state: z.enum(["found", "made"], "Say whether this is before or after the work."),
  ...needleFields,
  clipPosition: typedNumber({ name: "The clip's groove", low: 1, high: 7, whole: true }),
  needleSeatMm: typedNumber({ name: "The seat height", low: 0, high: 10, unit: "mm" }),
  needleShimBelowMm: typedNumber({ name: "Shims below the shoulder", low: 0, high: 5, unit: "mm" }),
  needleShimAboveMm: typedNumber({ name: "Shims above the shoulder", low: 0, high: 5, unit: "mm" }),
});
export type FittedNeedleInput = z.output<typeof FittedNeedleSchema>;

/** What a form said of a needle, as it is kept. */
export function recordOf(input: { readonly [K in keyof NeedleRecord]: NeedleRecord[K] }): NeedleRecord {
  const { origin, marks, micrometerMm, grooves, grooveStepMm, grooveAt, planeMm, note } = input;
  const read = { origin, marks, stations: input.stations, micrometerMm, grooves, planeMm, note };
  return grooves === 0
    ? { ...read, grooveStepMm: null, grooveAt: null }
    : { ...read, grooveStepMm, grooveAt };
}
