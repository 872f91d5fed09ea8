import { z } from "zod";
import { formId } from "./ids";

/** Said where the time ran past the shift: the person worked until now. */
const worked = z
  .literal("yes")
  .optional()
  .transform((said) => said === "yes");

/**
 * Of time that ran past the shift, for each entry that an act ends: `late.<entryId>` says that it lasted until now, until the end
 * that was proposed, or until `lateEnds.<entryId>`.
 */
export const lateFields = {
  late: z
    .record(z.string().regex(/^\d{1,9}$/), z.enum(["", "now", "shift", "other"]))
    .optional()
    .transform((said) => said ?? {}),
  lateEnds: z
    .record(z.string().regex(/^\d{1,9}$/), z.string().max(30))
    .optional()
    .transform((said) => said ?? {}),
};

/** What was said of time that ran past the shift. */
export interface LateSaid {
  readonly late?: Readonly<Record<string, "" | "now" | "shift" | "other">> | undefined;
  readonly lateEnds?: Readonly<Record<string, string>> | undefined;
}

export const StartTimeSchema = z.object({ jobId: formId(), stepId: formId().optional(), worked });
export const StopTimeSchema = z.object({ entryId: formId(), worked });
export const TakeBreakSchema = z.object({ entryId: formId(), worked });
export const EndBreakSchema = z.object({ breakId: formId() });
/** Which time is stopped: an entry, or, where a device does not know it yet, the person's own on a job. */
export const StopHereSchema = z.union([StopTimeSchema, z.object({ jobId: formId(), worked })]);

/** Local wall time of the shop, as a datetime-local field sends it. */
const localTime = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/, "Enter a day and a time.");

export const CorrectTimeSchema = z.object({
  entryId: formId(),
  version: formId(),
  startedAt: localTime,
  endedAt: localTime,
  reason: z
    .string()
    .trim()
    .min(3, "Say why the time is changed.")
    .max(300, "Keep this under 300 characters."),
});
export type CorrectTimeInput = z.output<typeof CorrectTimeSchema>;
