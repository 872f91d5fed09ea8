import { z } from "zod";
import { formId } from "./ids";
import { lateFields } from "./timeEntries";
import { WAIT_REASONS } from "./waitWords";

export { WAIT_WORDS, type WaitReason } from "./waitWords";

const note = (most: number) => z.string().trim().max(most, `Keep this under ${most} characters.`);

export const WaitSchema = z.object({
  jobId: formId(),
  reason: z.enum(WAIT_REASONS, "Say what it waits for."),
  /** A day of the shop; blank while nobody knows. */
  untilOn: z
    .union([z.literal(""), z.iso.date()], "Enter a day, or leave it open.")
    .optional()
    .transform((day) => day || null),
  note: note(300)
    .optional()
    .transform((text) => text ?? ""),
  ...lateFields,
});
export const EndWaitSchema = z.object({ waitId: formId() });

export const HandOverSchema = z.object({
  jobId: formId(),
  toId: formId("Choose who goes on with it."),
  note: note(500).min(3, "Say a word about where it stands."),
  ...lateFields,
});

export const StepNoteSchema = z.object({ stepId: formId(), text: note(1000).min(3, "Write a few words.") });
