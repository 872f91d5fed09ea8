import { z } from "zod";
import { parseMoney } from "@/lib/domain/money/parse";
import { Refusal } from "@/lib/domain/refusal";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";

export const PAYMENT_METHODS = ["cash", "card", "transfer"] as const;
export const METHOD_WORDS = { cash: "cash", card: "card", transfer: "bank transfer" } as const;
export const PAYMENT_WORDS = { deposit: "deposit", payment: "payment", refund: "paid back" } as const;

const money = {
  amount: z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(z.string().min(1, "Enter the amount.").max(30, "Enter the amount in figures.")),
  method: z.enum(PAYMENT_METHODS, "Choose how it was paid."),
  paidOn: z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the day it was paid."),
  reference: z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(oneLine(120, "Keep this within 120 characters.")),
};

export const TakeDepositSchema = z.object({ jobId: recordId, ...money });
export const PaymentSchema = z.object({ invoiceId: recordId, ...money });
export const RefundSchema = z.object({
  jobId: recordId,
  ...money,
  reference: money.reference.pipe(z.string().min(3, "Say why the money goes back.")),
});

/** A typed amount in minor units; what is wrong with it stands at its field. Throws Refusal. */
export function typedAmount(
  text: string,
  settings: { readonly currency: string; readonly locale: string },
): number {
  try {
    return parseMoney(text, settings.currency, settings.locale);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(cause.message, cause.remedy, { amount: `${cause.message} ${cause.remedy}` });
  }
}
