import { z } from "zod";
import { Refusal } from "@/lib/domain/refusal";
import { recordId } from "./ids";
import { oneLine } from "./oneLine";
import { PAYMENT_METHODS } from "./paymentWords";
import { blank } from "./stockFields";
import { typedAmount } from "./typedAmount";

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

/** A second method in the same act; without one its amount stays empty. */
const also = {
  alsoMethod: z.preprocess(blank, z.enum(PAYMENT_METHODS, "Choose how it was paid.").optional()),
  alsoAmount: z
    .string()
    .default("")
    .transform((text) => text.trim())
    .pipe(z.string().max(30, "Enter the amount in figures.")),
};

export const TakeDepositSchema = z.object({ jobId: recordId, ...money, ...also });
/** What is over stays the customer's, and is taken off another invoice or given back. */
const keepRest = z.literal("on").optional();
export const PaymentSchema = z.object({ invoiceId: recordId, ...money, ...also, keepRest });
export const FromBalanceSchema = z.object({ invoiceId: recordId });
export const PaySeveralSchema = z.object({
  customerId: recordId,
  invoices: z.array(recordId).max(50, "At most 50 invoices at once.").default([]),
  deposits: z.array(recordId).max(50, "At most 50 deposits at once.").default([]),
  ...money,
  method: z.enum(["card", "transfer"], "Choose how it was paid."),
  keepRest,
});
export const RefundSchema = z.object({
  jobId: recordId,
  ...money,
  reference: money.reference.pipe(z.string().min(3, "Say why the money goes back.")),
});

const why = (message: string) => money.reference.pipe(z.string().min(3, message));

export const WriteOffSchema = z.object({
  invoiceId: recordId,
  amount: money.amount,
  reference: why("Say why it will not be paid."),
});
export const TakeWriteOffBackSchema = z.object({
  invoiceId: recordId,
  reference: why("Say why it is due again."),
});
export const PaymentPaperSchema = z.object({ paymentId: recordId });
export const BouncedSchema = z.object({
  paymentId: recordId,
  paidOn: z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the day it bounced."),
  reference: why("Say why it bounced."),
});

/** What was typed for a second method, in minor units; undefined where none was. Throws Refusal for one half without the other. */
export function typedAlso(
  input: { readonly alsoMethod?: (typeof PAYMENT_METHODS)[number] | undefined; readonly alsoAmount: string },
  settings: { readonly currency: string; readonly locale: string },
) {
  const { alsoMethod: method, alsoAmount: text } = input;
  if (method === undefined && text === "") return undefined;
  if (method === undefined)
    throw new Refusal("The second amount does not say how it was paid.", "Choose how.", {
      alsoMethod: "Choose how it was paid.",
    });
  if (text === "")
    throw new Refusal("The second way of paying has no amount.", "Enter it, or choose nothing there.", {
      alsoAmount: "Enter the amount.",
    });
  return { method, amountMinor: typedAmount(text, settings, "alsoAmount") };
}

type TypedMoney = Omit<z.output<typeof PaymentSchema>, "invoiceId" | "keepRest">;

/** Money in as a form has it, its amounts in minor units. Throws Refusal. */
export function moneyTyped(
  input: TypedMoney,
  settings: { readonly currency: string; readonly locale: string },
) {
  const { method, paidOn, reference } = input;
  const amountMinor = typedAmount(input.amount, settings);
  return { method, paidOn, reference, amountMinor, also: typedAlso(input, settings) };
}
