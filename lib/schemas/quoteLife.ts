import { z } from "zod";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";

const key = z.string().trim().min(1).max(60);

export const AskSchema = z.object({
  text: z
    .string()
    .trim()
    .min(3, "Write your question.")
    .max(1000, "Keep the question within 1,000 characters."),
});
export const AnswerSchema = z.object({
  questionId: id,
  answer: z.string().trim().min(1, "Write the answer.").max(2000, "Keep the answer within 2,000 characters."),
});
export const CallOnSchema = z.object({
  id,
  version,
  callOn: z
    .string()
    .trim()
    .regex(/^(\d{4}-\d{2}-\d{2})?$/, "Choose a day, or leave it empty.")
    .default(""),
});
export const RemindSchema = z.object({
  id,
  version,
  words: z.string().trim().max(1000, "Keep this within 1,000 characters.").default(""),
});

export const LETTERS = ["A", "B", "C"] as const;
const letter = z.enum(LETTERS, "Choose A, B or C.");
export const KeepAlternativeSchema = z.object({
  id,
  version,
  letter,
  name: oneLine(60, "Keep the name within 60 characters.").default(""),
});
export const AlternativeSchema = z.object({ id, version, letter });

/** Extras of a customer's link address: `?extra=a&extra=b`. */
export const ExtrasAskedSchema = z
  .union([z.string(), z.array(z.string())])
  .optional()
  .transform((given) => (given === undefined ? [] : Array.isArray(given) ? given : [given]))
  .pipe(z.array(key).max(8))
  .catch([]);

/** The way of a customer's link address: `?alternative=B`. Undefined where the address names none. */
export const AlternativeAskedSchema = z
  .union([z.string(), z.array(z.string()).transform((all) => all[0])])
  .optional()
  .transform((given) => given?.slice(0, 8))
  .catch(undefined);

export type Answer = z.output<typeof AnswerSchema>;
export type CallOn = z.output<typeof CallOnSchema>;
export type Remind = z.output<typeof RemindSchema>;
export type KeepAlternative = z.output<typeof KeepAlternativeSchema>;
export type AlternativeRef = z.output<typeof AlternativeSchema>;
