import { z } from "zod";
import { partedReading } from "../domain/sheets/readingScale";
import { formId } from "./ids";
import { type LateSaid, lateFields } from "./timeEntries";

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

/** An odometer as read, and the tick that says it is right although it looks wrong. */
export const odometerFields = {
  odometerKm: decimalField
    .refine(
      (km) => km === null || (Number.isInteger(km) && km >= 0 && km < 2_000_000),
      "Enter the odometer as a whole number, such as 24180.",
    )
    .optional()
    .transform((km) => km ?? null),
  odometerRight: z
    .literal("on")
    .optional()
    .transform((tick) => tick === "on"),
};

const reason = z
  .string()
  .trim()
  .min(3, "Say why, in a few words.")
  .max(500, "Keep this under 500 characters.");

export const ArriveSchema = z.object({ jobId: formId(), version: formId(), ...odometerFields });
export const CancelSchema = z.object({ jobId: formId(), version: formId(), reason, ...lateFields });

const idList = z
  .union([z.array(formId()), formId().transform((one) => [one])])
  .optional()
  .transform((ids) => ids ?? []);

const readingField = z
  .string()
  .max(60)
  .transform((text, context) => {
    if (text.trim() === "") return null;
    const parted = partedReading(text);
    if (parted) return parted;
    context.addIssue({ code: "custom", message: "Enter a number such as 3.15, with its unit if you like." });
    return z.NEVER;
  });

/** `readings.<holdPointId>` as typed, `units.<holdPointId>` as chosen; a blank reading is none. */
export const PassSchema = z.object({
  stepId: formId(),
  version: formId(),
  readings: z
    .record(z.string().regex(/^\d{1,9}$/), readingField)
    .optional()
    .transform((typed) =>
      Object.entries(typed ?? {}).flatMap(([id, reading]) =>
        reading === null ? [] : [{ holdPointId: Number(id), ...reading }],
      ),
    ),
  units: z.record(z.string().regex(/^\d{1,9}$/), z.string().max(20)).optional(),
  /** `carburettors.<holdPointId>`: which one was read, where the hold point leaves it open. */
  carburettors: z
    .record(z.string().regex(/^\d{1,9}$/), z.string().regex(/^[1-4]?$/, "Choose a carburettor."))
    .optional()
    .transform((said) =>
      Object.fromEntries(Object.entries(said ?? {}).flatMap(([id, one]) => (one ? [[id, Number(one)]] : []))),
    ),
  /** `parts.<reservationId>`: used or not; `why.<reservationId>` where it was not. */
  parts: z.record(z.string().regex(/^\d{1,9}$/), z.enum(["", "used", "not"])).optional(),
  why: z
    .record(z.string().regex(/^\d{1,9}$/), z.string().trim().max(300, "Keep this under 300 characters."))
    .optional(),
  /** `jets.<place>`: a part's id, or "other" with `jetSizes.<place>` and `jetWhys.<place>`. */
  jets: z.record(z.string().regex(/^\d{1,2}$/), z.string().regex(/^(|other|\d{1,9})$/)).optional(),
  jetSizes: z.record(z.string().regex(/^\d{1,2}$/), decimalField).optional(),
  jetWhys: z
    .record(z.string().regex(/^\d{1,2}$/), z.string().trim().max(300, "Keep this under 300 characters."))
    .optional(),
  checks: idList,
  signatures: idList,
});

export const ReplacementSchema = z.object({ jobId: formId(), reservationId: formId() });

export const PartLeftSchema = z.object({
  jobId: formId(),
  reservationId: formId(),
  used: z.enum(["used", "not"], "Say whether it was used.").transform((said) => said === "used"),
  why: z
    .string()
    .trim()
    .max(300, "Keep this under 300 characters.")
    .optional()
    .transform((text) => text ?? ""),
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

/**
 * `values.<carburettor>.<setting>` and `hows.<carburettor>.<setting>`; `rest` says how those are known whose own "how" is left
 * open.
 */
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
  rest: z
    .enum(["", "measured", "read", "assumed"])
    .optional()
    .transform((how) => how ?? ""),
  ...odometerFields,
  cautions: z.literal("on").optional(),
  ...lateFields,
  note: z
    .string()
    .trim()
    .max(1000)
    .optional()
    .transform((text) => text ?? ""),
});

export type FinishInput = Omit<z.output<typeof FinishSchema>, "rest" | "odometerRight" | keyof LateSaid> &
  Partial<Pick<z.output<typeof FinishSchema>, "rest" | "odometerRight">> &
  LateSaid & { key?: string | undefined };
