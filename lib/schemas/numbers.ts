import { z } from "zod";

/** Documents that are numbered, in the order people meet them: what they are called, and the first number of a shop that chose none. */
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

export const FirstNumberSchema = z.object({
  kind: z.enum(NUMBERED_KINDS as [NumberedKind, ...NumberedKind[]], "Choose the kind."),
  first,
});
export type FirstNumber = z.output<typeof FirstNumberSchema>;
