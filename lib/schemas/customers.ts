import { z } from "zod";
import { LANGUAGES } from "@/lib/words/language";
import { cursorId, recordId } from "./ids";
import { longText, neededText, seenVersion, shortText, typedNumber } from "./typedNumber";

const email = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(z.string().max(200, "This address is longer than 200 characters: shorten it."))
  .pipe(
    z.union([
      z.literal(""),
      z.email("This is no e-mail address: enter one such as name@example.org, or leave it blank."),
    ]),
  );

const ticked = z
  .string()
  .optional()
  .transform((sent) => sent === "on");

/** A language of ours; null for anything else. */
export const LanguageSchema = z.enum(LANGUAGES).nullable().catch(null);

/** A customer as the form sends it; with `id` it changes that customer, without it makes a new one. */
export const CustomerSchema = z.object({
  id: recordId.optional(),
  ...seenVersion,
  name: neededText(120, "The name", "Ines Valdborg"),
  email,
  phone: shortText(60, "The phone number"),
  address: longText(400, "The address"),
  language: z.enum(["", ...LANGUAGES], "Choose one of these.").default(""),
  noLetters: ticked,
  business: ticked,
  taxNumber: shortText(40, "The tax number"),
  discountPercent: typedNumber({ name: "The discount", low: 0, high: 100, unit: "%" }),
  discountClass: shortText(60, "The discount's name"),
  notes: longText(4000, "The notes"),
});

export type CustomerInput = z.output<typeof CustomerSchema>;

/** By name or by when they were added; a minus turns the order round. */
const CUSTOMER_SORTS = ["name", "-name", "added", "-added"] as const;

export const CustomerQuery = z.object({
  q: z.string().max(200).catch("").default(""),
  sort: z.enum(CUSTOMER_SORTS).catch("name").default("name"),
  after: cursorId,
});
export type CustomerQueryInput = z.output<typeof CustomerQuery>;
