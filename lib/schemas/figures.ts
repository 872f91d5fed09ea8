import { z } from "zod";
import { SHARES, type ShareKind } from "@/lib/domain/invoices/shares";
import { type DayRange, daysBefore, daysIn, RANGES, rangeAround } from "@/lib/domain/schedule/ranges";
import { cursorId } from "./ids";

/** Longest range of one's own, in days: three years and a day. */
const LONGEST = 1097;

const day = z.iso.date().optional().catch(undefined);

/** What figures are asked for: a named range around a day, or days of one's own. */
export const FiguresQuery = z.object({
  range: z.enum([...RANGES, "own"]).catch("year"),
  from: day,
  to: day,
  kind: z.enum(SHARES).optional().catch(undefined),
  month: z
    .string()
    .regex(/^\d{4}-(0[1-9]|1[0-2])$/)
    .optional()
    .catch(undefined),
  after: cursorId,
});

/** The package, as a figure names it, whose records are asked for. */
export const PackageAsked = z.object({ package: z.string().max(600).optional().catch(undefined) });
export type FiguresAsked = z.output<typeof FiguresQuery>;

/** The days that are meant, and those that they are held against. One's own that are missing, turned round or too long are the year. */
export function rangesOf(
  { range, from, to }: Pick<FiguresAsked, "range" | "from" | "to">,
  today: string,
  country: string,
): { readonly range: DayRange; readonly before: DayRange } {
  if (range !== "own") return rangeAround(range, today, country);
  const own = from && to ? { from, to } : null;
  if (!own || own.from > own.to || daysIn(own) > LONGEST) return rangeAround("year", today, country);
  return { range: own, before: daysBefore(own) };
}

export const RANGE_WORDS = {
  month: "This month",
  quarter: "This quarter",
  year: "This financial year",
  own: "From day to day",
} as const;

/** What stands beside each kind of revenue. */
export const SHARE_WORDS: Readonly<Record<ShareKind, string>> = {
  labour: "Labour",
  part: "Parts",
  fixed: "Fixed prices and amounts off",
  sundries: "Sundries",
  outside: "Outside work",
  discount: "Discounts",
  counter: "Counter sales",
};
