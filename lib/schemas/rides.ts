import { z } from "zod";
import { formId } from "./ids";
import { decimalField, odometerFields } from "./jobs";

export const THROTTLES = ["closed", "eighth", "quarter", "half", "threeQuarter", "full"] as const;
export const CONDITIONS = ["steady", "snap", "decelerating", "idle", "starting"] as const;
export const ENGINES = ["cold", "hot"] as const;
export const SIGNS = ["rich", "lean", "hesitates", "surges", "floods", "good"] as const;

export const ObservationSchema = z.object({
  throttle: z.enum(THROTTLES, "Choose the throttle position."),
  condition: z.enum(CONDITIONS, "Choose what the bike was doing."),
  engine: z.enum(ENGINES, "Choose cold or hot."),
  sign: z.enum(SIGNS, "Choose what you felt."),
  note: z
    .string()
    .trim()
    .max(300, "Keep this under 300 characters.")
    .optional()
    .transform((text) => text ?? ""),
});
export type RideObservation = z.output<typeof ObservationSchema>;

/** `observations.<n>.throttle` and so on; a row without a sign was left empty. */
export const RideSchema = z.object({
  jobId: formId(),
  version: formId(),
  good: z.enum(["yes", "no"], "Say whether all was good."),
  ...odometerFields,
  note: z
    .string()
    .trim()
    .max(1000, "Keep this under 1000 characters.")
    .optional()
    .transform((text) => text ?? ""),
  observations: z.preprocess(
    (rows) =>
      rows && typeof rows === "object"
        ? Object.values(rows).filter(
            (row) => row && typeof row === "object" && (row as { sign?: unknown }).sign,
          )
        : [],
    z.array(ObservationSchema).max(12, "Keep to twelve observations a ride."),
  ),
});
export type RideInput = Omit<z.output<typeof RideSchema>, "odometerRight"> & {
  odometerRight?: boolean;
  key?: string | undefined;
};

export const AcceptCorrectionSchema = z.object({
  correctionId: formId(),
  version: formId(),
  /** Lambda measured where the change acts; needed for a leaner change of more than one step. */
  lambda: decimalField
    .refine((value) => value === null || (value >= 0.6 && value <= 1.4), "Enter lambda between 0.6 and 1.4.")
    .optional()
    .transform((value) => value ?? null),
});
export type AcceptInput = z.output<typeof AcceptCorrectionSchema> & { key?: string | undefined };
