import { z } from "zod";
import { formId } from "./ids";

export const JOB_STATES = [
  "waiting",
  "booked",
  "inWork",
  "ride",
  "ready",
  "invoiced",
  "closed",
  "cancelled",
] as const;
export type JobState = (typeof JOB_STATES)[number];

/** A decimal as typed, with a point or a comma; blank is null, never 0. */
export const decimalField = z
  .string()
  .max(40, "Enter a number such as 3.15.")
  .trim()
  .transform((text, context) => {
    if (text === "") return null;
    const plain = text.replace("−", "-").replace(",", ".");
    if (/^-?(\d+\.?\d*|\.\d+)$/.test(plain)) return Number(plain);
    context.addIssue({ code: "custom", message: "Enter a number such as 3.15." });
    return z.NEVER;
  });

const odometer = decimalField
  .refine(
    (km) => km === null || (Number.isInteger(km) && km >= 0 && km < 2_000_000),
    "Enter whole kilometres, such as 24180.",
  )
  .optional()
  .transform((km) => km ?? null);

const reason = z
  .string()
  .trim()
  .min(3, "Say why, in a few words.")
  .max(500, "Keep this under 500 characters.");

export const ArriveSchema = z.object({ jobId: formId(), version: formId(), odometerKm: odometer });
export const CancelSchema = z.object({ jobId: formId(), version: formId(), reason });

const idList = z
  .union([z.array(formId()), formId().transform((one) => [one])])
  .optional()
  .transform((ids) => ids ?? []);

/** `readings.<holdPointId>` as typed; a blank one is not a reading. */
export const PassSchema = z.object({
  stepId: formId(),
  version: formId(),
  readings: z
    .record(z.string().regex(/^\d+$/), decimalField)
    .optional()
    .transform((typed) =>
      Object.entries(typed ?? {}).flatMap(([id, value]) =>
        value === null ? [] : [{ holdPointId: Number(id), value }],
      ),
    ),
  checks: idList,
  signatures: idList,
});

export const SkipSchema = z.object({ stepId: formId(), version: formId(), reason });
export const UndoSkipSchema = z.object({ stepId: formId(), version: formId() });
export const OverrideSchema = z.object({ holdPointId: formId(), version: formId(), reason });

export const UsePartSchema = z.object({ reservationId: formId(), quantityMilli: formId(), stepId: formId() });

export const FindingSchema = z.object({
  jobId: formId(),
  stepId: formId().optional(),
  text: z.string().trim().min(3, "Say what you found.").max(1000, "Keep this under 1000 characters."),
  /** A photo waits in the browser for the finding's number. */
  photo: z.literal("waits").optional(),
});
export const NoteFindingSchema = z.object({ findingId: formId(), version: formId() });

/** `values.<carburettor>.<setting>` and `hows.<carburettor>.<setting>`: a value counts once its "how" is chosen. */
export const FinishSchema = z.object({
  jobId: formId(),
  version: formId(),
  values: z
    .record(z.string().regex(/^[1-4]$/), z.record(z.string(), decimalField))
    .optional()
    .transform((v) => v ?? {}),
  hows: z
    .record(z.string().regex(/^[1-4]$/), z.record(z.string(), z.enum(["", "measured", "read", "assumed"])))
    .optional()
    .transform((v) => v ?? {}),
  odometerKm: odometer,
  cautions: z.literal("on", "Tick this once you have gone through the cautions."),
  note: z
    .string()
    .trim()
    .max(1000)
    .optional()
    .transform((text) => text ?? ""),
});

export type FinishInput = Omit<z.output<typeof FinishSchema>, "cautions"> & {
  cautions: "on";
  key?: string | undefined;
};
