import { z } from "zod";
import { NO_TERMS, type QuoteTerms } from "@/lib/domain/quoting/terms";
import { oneLine } from "./oneLine";
import { id, version } from "./packages";
import { milliOf } from "./quantity";

/** Of one of several works its key stands before: lib/domain/quoting/composeWorks.ts. */
const key = z.string().trim().min(1).max(70);
/** Of a line: of one of several works and out of a kit it names all three. */
const lineKey = z.string().trim().min(1).max(120);
const why = oneLine(120, "Keep the reason within 120 characters.").default("");
const minor = z.int().min(0).max(1_000_000_000);
const bp = z.int().min(0).max(10_000);

const HandLineSchema = z.strictObject({
  key,
  /** Work bought outside, or a line of the shop's own; at a price of 0 it is text. */
  kind: z.enum(["outside", "text"]),
  name: z.string().min(1).max(160),
  priceMinor: minor,
  costMinor: minor,
  taxMark: z.enum(["", "Z", "E", "O"]).optional(),
  quantityMilli: z.int().min(1).max(1_000_000_000).optional(),
  unit: z.string().min(1).max(20).optional(),
});

const HandPartSchema = z.strictObject({
  key,
  code: z.string().min(1).max(60),
  name: z.string().max(160).default(""),
  quantityMilli: z.int().min(1).max(1_000_000_000),
  priceMinor: minor.optional(),
  costMinor: minor.optional(),
  taxMark: z.enum(["Z", "E", "O"]).optional(),
});

/** What was agreed on one quote beyond its package, as it is stored with the revision. */
const QuoteTermsSchema = z.strictObject({
  lines: z.array(HandLineSchema).max(20).default([]),
  parts: z.array(HandPartSchema).max(20).optional(),
  lineDiscounts: z
    .array(z.strictObject({ line: lineKey, bp, why }))
    .max(60)
    .default([]),
  discount: z
    .union([
      z.null(),
      z.strictObject({ kind: z.literal("percent"), bp, why }),
      z.strictObject({ kind: z.literal("amount"), minor, why }),
    ])
    .default(null),
  /** Null: as the shop's settings say. */
  deposit: z
    .union([z.null(), z.strictObject({ percentBp: bp }), z.strictObject({ amountMinor: minor })])
    .default(null),
  /** Options that the customer may add when accepting. */
  extras: z.array(key).max(8).default([]),
}) satisfies z.ZodType<QuoteTerms>;

/** The terms of a revision out of the database; a revision without any has none. */
export function storedTerms(json: unknown): QuoteTerms {
  return json === null || json === undefined ? NO_TERMS : QuoteTermsSchema.parse(json);
}

const percent = z
  .string()
  .max(40, "Enter a percentage from 0 to 100.")
  .trim()
  .default("")
  .transform((text, context) => {
    if (text === "") return 0;
    const value = Number(text.replace(",", "."));
    if (
      Number.isFinite(value) &&
      value >= 0 &&
      value <= 100 &&
      Number.isInteger(Math.round(value * 1e6) / 1e4)
    )
      return Math.round(value * 100);
    context.addIssue({ code: "custom", message: "Enter 0 to 100 percent, with two decimals at most." });
    return z.NEVER;
  });
/** Money as typed: the data layer reads it in the shop's currency and locale. */
const money = z.string().trim().max(30).default("");
const draft = { id, version };

export const AddQuoteLineSchema = z
  .object({
    ...draft,
    kind: z.enum(["outside", "text", "part"], "Choose what kind of line it is."),
    /** Code of the part, for a part of stock. */
    part: oneLine(60, "No part's code is as long as this.").default(""),
    name: oneLine(160, "Keep this within 160 characters.").default(""),
    quantity: z
      .string()
      .trim()
      .max(20, "Enter how many, such as 1 or 2.5.")
      .default("")
      .transform((typed, context) => {
        const milli = typed === "" ? 1000 : milliOf(typed);
        if (milli !== null && milli > 0) return milli;
        context.addIssue({ code: "custom", message: "Enter how many, such as 1 or 2.5." });
        return z.NEVER;
      }),
    unit: oneLine(20, "Keep the unit within 20 characters.").default(""),
    price: money,
    cost: money,
    taxMark: z.enum(["", "Z", "E", "O"], "Choose how it is taxed.").optional(),
  })
  .superRefine(({ kind, name, part }, context) => {
    const wrong = (path: string, message: string) =>
      context.addIssue({ code: "custom", path: [path], message });
    if (kind === "part" && part === "") wrong("part", "Say which part: its code, or words of its name.");
    if (kind !== "part" && name === "") wrong("name", "Say what it is.");
  });
export const RemoveLineSchema = z.object({ ...draft, line: key });
export const LineDiscountSchema = z.object({ ...draft, line: lineKey, percent, why });
export const DiscountSchema = z
  .object({ ...draft, how: z.enum(["none", "percent", "amount"]), amount: money, why })
  .refine((d) => d.how === "none" || d.why !== "", {
    path: ["why"],
    message: "Say why: it is printed on the quote.",
  });
export const QuoteDepositSchema = z.object({
  ...draft,
  how: z.enum(["shop", "none", "percent", "amount"]),
  amount: money,
});
export const ExtrasSchema = z.object({
  ...draft,
  extras: z.array(key).max(8, "Offer eight at most.").default([]),
});

export const ValidUntilSchema = z.object({
  ...draft,
  validUntil: z
    .string("Enter the last day.")
    .trim()
    .regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the last day."),
});

/** A share typed into a money field: "10" and "12,5" are percent. */
export const shareTyped = percent;

const day = z
  .string()
  .trim()
  .regex(/^(\d{4}-\d{2}-\d{2})?$/, "Enter a day, or leave it empty.")
  .default("");
export const PriceBookSchema = z.object({
  version: z.coerce.number().int().min(0),
  roundDownTo: money,
  pricesFrom: day,
  pricesUntil: day,
});

type LineTyped = z.output<typeof AddQuoteLineSchema>;
export type AddLine = Omit<LineTyped, "quantity" | "unit" | "part"> &
  Partial<Pick<LineTyped, "quantity" | "unit" | "part">>;
export type RemoveLine = z.output<typeof RemoveLineSchema>;
export type LineDiscountInput = z.output<typeof LineDiscountSchema>;
export type DiscountInput = z.output<typeof DiscountSchema>;
export type DepositInput = z.output<typeof QuoteDepositSchema>;
export type ExtrasInput = z.output<typeof ExtrasSchema>;
export type ValidUntilInput = z.output<typeof ValidUntilSchema>;
export type PriceBookInput = z.output<typeof PriceBookSchema>;
