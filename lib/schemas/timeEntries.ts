import { z } from "zod";
import { idField } from "./jobs";

export const StartTimeSchema = z.object({ jobId: idField, stepId: idField.optional() });
export const StopTimeSchema = z.object({ entryId: idField });

/** Local wall time of the shop, as a datetime-local field sends it. */
const localTime = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/, "Enter a day and a time.");

export const CorrectTimeSchema = z.object({
  entryId: idField,
  version: idField,
  startedAt: localTime,
  endedAt: localTime,
  reason: z
    .string()
    .trim()
    .min(3, "Say why the time is changed.")
    .max(300, "Keep this under 300 characters."),
});
export type CorrectTimeInput = z.output<typeof CorrectTimeSchema>;
