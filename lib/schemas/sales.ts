import { z } from "zod";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";
import { PAYMENT_METHODS } from "./paymentWords";
import { blank, moneyE4, quantity, reads } from "./stockFields";
import { typedShare } from "./typedFigures";

/** So many parts go over the counter at once. */
const MOST_LINES = 60;

const share = z.preprocess(
  blank,
  z
    .string()
    .max(8, "Enter a share such as 10 or 7.5.")
    .transform(reads(typedShare))
    .optional()
    .transform((bp) => bp ?? 0),
);

const SoldLineSchema = z.object({
  partId: recordId,
  quantity,
  price: moneyE4.pipe(z.number("Enter the price of one.")),
  discount: share,
});

/** A form's lines, numbered from 0, in their order. */
const lines = z.preprocess(
  (value) =>
    value && typeof value === "object" && !Array.isArray(value)
      ? Object.entries(value)
          .sort(([a], [b]) => Number(a) - Number(b))
          .map(([, line]) => line)
      : value,
  z
    .array(SoldLineSchema, "Scan or find a part first.")
    .min(1, "Scan or find a part first.")
    .max(MOST_LINES, `At most ${MOST_LINES} lines on one receipt.`),
);

export const SellSchema = z
  .object({
    lines,
    discount: share,
    discountWhy: oneLine(80).default(""),
    customerId: z.preprocess(blank, recordId.optional()),
    /** A receipt, or a full invoice to a named buyer. */
    paper: z.enum(["receipt", "invoice"]).default("receipt"),
    method: z.enum(PAYMENT_METHODS, "Choose how it is paid."),
    given: z.string().trim().max(30, "Enter the amount in figures.").default(""),
    /** So much of it by another method first; empty: all by the one. */
    alsoMethod: z.preprocess(blank, z.enum(PAYMENT_METHODS, "Choose how it is paid.").optional()),
    alsoAmount: z.string().trim().max(30, "Enter the amount in figures.").default(""),
    /** The total that was on the screen: at another one nothing is sold. */
    shownMinor: z
      .string()
      .regex(/^\d{1,15}$/)
      .transform(Number)
      .optional(),
    earlier: z.literal("on").optional(),
  })
  .superRefine((sale, context) => {
    const ids = sale.lines.map((line) => line.partId);
    if (new Set(ids).size !== ids.length)
      context.addIssue({
        code: "custom",
        path: ["lines"],
        message: "A part stands here twice: put it on one line.",
      });
    if (sale.paper === "invoice" && sale.customerId === undefined)
      context.addIssue({
        code: "custom",
        path: ["customerId"],
        message: "A full invoice names its buyer: choose the customer.",
      });
  });
export type SellInput = z.output<typeof SellSchema>;

export const TakeBackSchema = z.object({
  saleId: recordId,
  reason: oneLine(300).pipe(z.string().min(3, "Say why it comes back: it is printed.")),
  method: z.enum(PAYMENT_METHODS, "Choose how the money goes back."),
  /** Parts that are fit to be sold again; the others are scrapped. */
  back: z.array(recordId).max(MOST_LINES).default([]),
  earlier: z.literal("on").optional(),
});
export type TakeBackInput = z.output<typeof TakeBackSchema>;

export const FullInvoiceSchema = z.object({
  saleId: recordId,
  customerId: z.preprocess(blank, recordId.optional()).pipe(z.number("Choose the customer.")),
  earlier: z.literal("on").optional(),
});
export type FullInvoiceInput = z.output<typeof FullInvoiceSchema>;

export const MailReceiptSchema = z.object({
  id: recordId,
  to: z.email("Enter the address the receipt goes to.").max(200),
});
