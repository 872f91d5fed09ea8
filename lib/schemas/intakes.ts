import { z } from "zod";
import { partedReading } from "../domain/sheets/readingScale";
import { readingIn } from "../domain/sheets/typedReading";
import { PLUGS } from "../domain/tuning/firstLook";
import { recordId } from "./ids";
import { ObservationSchema } from "./rides";
import { longText, typedNumber } from "./typedNumber";

const EMPTY = {
  compressionKpa: null,
  leakDownPercent: null,
  intakeClearanceMm: null,
  exhaustClearanceMm: null,
  plug: null,
};

/** Compression as a gauge says it: “1150”, “11,5 bar”, “165 psi”; kept in kPa. */
const compression = z
  .string()
  .max(40)
  .default("")
  .transform((text, context): number | null => {
    if (text.trim() === "") return null;
    const parted = partedReading(text);
    const rule = { name: "Compression", unit: "kPa", low: 0, measures: "" };
    const read = parted && readingIn(rule, parted.value, parted.unit);
    const kpa = read && "value" in read ? read.value : null;
    if (kpa !== null && kpa >= 100 && kpa <= 3000) return Number(kpa.toFixed(1));
    context.addIssue({
      code: "custom",
      message: "Enter the compression with its unit, such as 11.5 bar or 165 psi: 100 to 3000 kPa.",
    });
    return z.NEVER;
  });

const clearance = (name: string) => typedNumber({ name, low: 0, high: 1, unit: "mm" });

const CylinderSchema = z.object({
  compressionKpa: compression,
  leakDownPercent: typedNumber({ name: "Leak-down", low: 0, high: 100, unit: "%" }),
  intakeClearanceMm: clearance("The intake valve clearance"),
  exhaustClearanceMm: clearance("The exhaust valve clearance"),
  plug: z
    .enum(["", ...PLUGS], "Choose how the plug looks.")
    .default("")
    .transform((said) => said || null),
});

const observations = z.preprocess(
  (rows) =>
    rows && typeof rows === "object"
      ? Object.values(rows).filter(
          (row) => row && typeof row === "object" && (row as { sign?: unknown }).sign,
        )
      : [],
  z.array(ObservationSchema).max(12, "Keep to twelve observations."),
);

/** `observations.<n>.throttle` and so on, a row without a sign left empty; `cylinders.<position>.compressionKpa` and so on. */
export const IntakeSchema = z
  .object({
    bikeId: recordId,
    jobId: recordId.optional(),
    complaint: longText(2000, "The complaint"),
    changedBefore: longText(2000, "What was changed before"),
    note: longText(2000, "The note"),
    odometerKm: typedNumber({ name: "The odometer", low: 0, high: 2_000_000, unit: "km", whole: true }),
    odometerRight: z
      .literal("on")
      .optional()
      .transform((tick) => tick === "on"),
    fuelUse: typedNumber({ name: "Fuel use", low: 0.5, high: 40, unit: "l/100 km" }),
    observations,
    cylinders: z.record(z.string().regex(/^[1-8]$/), CylinderSchema).default({}),
  })
  .transform(({ cylinders, ...form }, context) => {
    const looked = Object.entries(cylinders).flatMap(([position, look]) =>
      Object.values(look).some((one) => one !== null)
        ? [{ position: Number(position), ...EMPTY, ...look }]
        : [],
    );
    const said = [form.complaint, form.changedBefore, form.note].some((text) => text !== "");
    if (!said && form.fuelUse === null && form.observations.length === 0 && looked.length === 0)
      context.addIssue({
        code: "custom",
        path: ["complaint"],
        message: "Nothing is filled in: enter what the owner says, or what you felt or looked at.",
      });
    return { ...form, cylinders: looked };
  });
export type IntakeInput = z.output<typeof IntakeSchema> & { key?: string | undefined };

export const WithdrawIntakeSchema = z.object({
  intakeId: recordId,
  version: recordId,
  why: z.string().trim().min(3, "Say why, in a few words.").max(500, "Keep this within 500 characters."),
});
