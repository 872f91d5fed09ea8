import { z } from "zod";
import { MOST_A_YEAR, MOST_PREFIX, PREFIX } from "@/lib/domain/numbers/series";

/**
 * Documents that are numbered, in the order people meet them: what they are called, and the first number of a shop that chose none.
 */
export const NUMBERED = {
  quote: { name: "Quotes", first: 1001 },
  job: { name: "Jobs", first: 601 },
  invoice: { name: "Invoices", first: 2001 },
  creditNote: { name: "Credit notes", first: 301 },
  receipt: { name: "Receipts", first: 501 },
  order: { name: "Purchase orders", first: 81 },
} as const;
export type NumberedKind = keyof typeof NUMBERED;
export const NUMBERED_KINDS = Object.keys(NUMBERED) as NumberedKind[];

/** Nine digits: what the search takes for a number. */
const first = z
  .string()
  .trim()
  .regex(/^[1-9]\d{0,8}$/, "Enter a whole number from 1, of nine digits at most.")
  .transform(Number);

const prefix = z
  .string()
  .trim()
  .max(MOST_PREFIX, `Keep it within ${MOST_PREFIX} characters.`)
  .regex(PREFIX, "Letters, digits and hyphens; a letter first, no digit last.")
  .default("");

export const FirstNumberSchema = z
  .object({
    kind: z.enum(NUMBERED_KINDS as [NumberedKind, ...NumberedKind[]], "Choose the kind."),
    first,
    prefix,
    /** How a series goes into a new year: on, or from 1 again with the year in each number. */
    yearly: z
      .enum(["on", "off"], "Choose how it goes into a new year.")
      .default("off")
      .transform((text) => text === "on"),
  })
  .superRefine(({ first: number, yearly }, context) => {
    if (yearly && number > MOST_A_YEAR)
      context.addIssue({
        code: "custom",
        path: ["first"],
        message: `Enter its number in this year, from 1 to ${MOST_A_YEAR}.`,
      });
  });
export type FirstNumber = z.output<typeof FirstNumberSchema>;
