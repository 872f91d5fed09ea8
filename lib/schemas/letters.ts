import { z } from "zod";
import { LETTER_KINDS, type LetterKind } from "@/lib/domain/letters/kinds";
import { LANGUAGES } from "@/lib/words/language";
import { typedNumber } from "./typedNumber";

const kind = z.enum(LETTER_KINDS as [LetterKind, ...LetterKind[]], "Choose a letter from the list.");
/** 0 is a letter that the shop has not touched. */
const version = z.coerce.number("Open the page anew.").int().min(0).max(2_147_483_647);
const language = z.enum(LANGUAGES, "Choose one of these.");

export const MOST_SUBJECT = 150;
export const MOST_TEXT = 4000;

export const SaveLetterSchema = z.object({
  kind,
  language,
  version,
  subject: z
    .string()
    .trim()
    .min(1, "Write a subject.")
    .max(MOST_SUBJECT, `Keep the subject within ${MOST_SUBJECT} characters.`)
    .regex(/^[^\r\n]*$/, "Keep the subject on one line."),
  text: z
    .string()
    .transform((text) => text.replace(/\r\n?/g, "\n").trim())
    .pipe(
      z
        .string()
        .min(1, "Write the letter, or put it back to ours.")
        .max(MOST_TEXT, `Keep the letter within ${MOST_TEXT} characters.`),
    ),
});
export const ResetLetterSchema = z.object({ kind, language, version });
export const SwitchLetterSchema = z.object({
  kind,
  version,
  on: z
    .string()
    .optional()
    .transform((ticked) => ticked === "on"),
  days: typedNumber({ name: "The number of days", low: 1, high: 90, whole: true }),
});

/** A letter's kind from an address; null for anything else. */
export const LetterKindSchema = kind.nullable().catch(null);
