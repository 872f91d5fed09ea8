import { z } from "zod";
import { daysAfter } from "@/lib/domain/schedule/days";
import { type PeriodMonths, periodOf } from "@/lib/domain/taxReport/periods";
import { oneLine } from "./oneLine";
import { ticked } from "./recipeFields";

export const RegisteredSchema = z.object({ inCompanyRegister: ticked });

const day = z.iso.date("Choose a day.");
const said = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(oneLine(200, "Keep this within 200 characters."));
/** What was closed as the page was shown. */
const seen = z.union([z.literal(""), z.iso.date()]);

export const CloseBooksSchema = z.object({ throughDay: day, reason: said, seen });
export const ReopenBooksSchema = z.object({
  fromDay: day,
  reason: said.pipe(z.string().min(3, "Say why it is reopened.")),
  seen,
});

/** How long a stretch is: whole periods of so many months, or the person's own days. */
export const STRETCHES = ["1", "2", "3", "6", "12", "own"] as const;
export const STRETCH_WORDS: Readonly<Record<(typeof STRETCHES)[number], string>> = {
  "1": "A month",
  "2": "Two months",
  "3": "A quarter",
  "6": "Half a year",
  "12": "A year",
  own: "Own days",
};
/** So many days of one's own at most: three years. */
const MOST_DAYS = 1_100;

/** Days that a shop can have, far from where dates end. */
const asked = z.iso
  .date()
  .refine((text) => text >= "1990-01-01" && text <= "2200-12-31")
  .optional()
  .catch(undefined);

const TaxQuerySchema = z.object({
  by: z.enum(STRETCHES).optional().catch(undefined),
  from: asked,
  to: asked,
  basis: z.enum(["issued", "paid"]).optional().catch(undefined),
});

/** What the summary is asked for, with the shop's own terms and today for what is left out. */
export function taxStretch(
  raw: unknown,
  terms: { readonly basis: "issued" | "paid"; readonly periodMonths: PeriodMonths },
  today: string,
) {
  const {
    by = String(terms.periodMonths) as "3",
    from = today,
    to,
    basis = terms.basis,
  } = TaxQuerySchema.parse(raw);
  const months = by === "own" ? null : (Number(by) as PeriodMonths);
  if (months !== null) return { by, months, basis, ...periodOf(from, months) };
  const last = to === undefined || to < from ? from : to;
  const most = daysAfter(from, MOST_DAYS - 1);
  const tooLong = last > most;
  return { by, months, basis, from, to: tooLong ? most : last };
}

export const TaxCellSchema = z.object({
  part: z.enum(["main", "deposits", "off"]).catch("main"),
  category: z
    .string()
    .regex(/^[A-Z]{1,2}$/)
    .catch("S"),
  rate: z.coerce.number().min(0).max(10_000).catch(0),
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
});

export const TaxTermsSchema = z.object({
  basis: z.enum(["issued", "paid"], "Choose what counts."),
  periodMonths: z
    .enum(["1", "2", "3", "6", "12"], "Choose how long a period is.")
    .transform((text) => Number(text) as PeriodMonths),
  depositsDue: z.enum(["", "received", "invoiced"], "Choose when tax in deposits falls due."),
});
