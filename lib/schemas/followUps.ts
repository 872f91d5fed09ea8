import { z } from "zod";
import { cursorId, recordId } from "./ids";

export const FOLLOW_UP_STATES = ["due", "done", "dropped"] as const;

const version = z
  .string()
  .regex(/^\d{1,9}$/, "Open the page again.")
  .transform(Number);

export const FinishFollowUpSchema = z.object({
  id: recordId,
  version,
  state: z.enum(["done", "dropped"], "Choose done or dropped."),
  outcome: z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(
      z
        .string()
        .min(2, "Say how the bike runs, or why this is dropped.")
        .max(400, "Keep this within 400 characters."),
    ),
});

export const FollowUpQuery = z.object({
  state: z.enum(FOLLOW_UP_STATES).catch("due").default("due"),
  after: cursorId,
});

export type FinishFollowUp = z.output<typeof FinishFollowUpSchema>;
export type FollowUpQueryInput = z.output<typeof FollowUpQuery>;
