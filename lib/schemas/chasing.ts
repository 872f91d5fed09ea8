import { z } from "zod";
import { type Column, FAVOURS } from "@/lib/domain/chasing/accountLines";
import { AGES } from "@/lib/domain/chasing/age";
import { LEVELS, type ReminderTerms } from "@/lib/domain/chasing/reminderTerms";
import { cursorId, formId, recordId } from "./ids";
import { oneLine } from "./oneLine";
import { blank } from "./stockFields";
import { typedAmount } from "./typedAmount";
import { typedNumber } from "./typedNumber";

export const COLUMNS = [...AGES, ...FAVOURS] as const satisfies readonly Column[];

/** What stands over each column of an aged list. */
export const COLUMN_WORDS: Readonly<Record<Column, string>> = {
  notDue: "Not due",
  to30: "1 to 30 days",
  to60: "31 to 60",
  to90: "61 to 90",
  over90: "Over 90",
  balance: "Over-paid",
  deposit: "Deposits",
  credit: "Credit notes",
};

const day = z.iso.date().optional().catch(undefined);

/** What is asked of the aged list: a day, and which documents. */
export const OwingQuery = z.object({
  on: day,
  customer: recordId.optional().catch(undefined),
  column: z.enum(COLUMNS).optional().catch(undefined),
  by: z.enum(["document"]).optional().catch(undefined),
  after: cursorId,
});
export type OwingQueryInput = z.output<typeof OwingQuery>;

/** The days of a statement; the last three months where none are asked for. */
export const StatementQuery = z.object({ from: day, to: day });

const typedDay = z.iso.date("Enter the day.");
/** What somebody adds to a letter in their own words. */
const words = z.string().trim().max(1000, "Keep this within 1,000 characters.").default("");

export const MailStatementSchema = z.object({ customerId: recordId, from: typedDay, to: typedDay, words });

const LEVEL_WORDS = ["first reminder", "second reminder", "last reminder"];
/** What a reminder of a level is called. */
export const levelWord = (level: number): string => LEVEL_WORDS[level - 1] ?? "reminder";

const level = z.enum(["1", "2", "3"], "Open the page again.").transform(Number);

export const RemindSchema = z.object({ id: recordId, level, words, byHand: z.literal("on").optional() });

/** So many reminders are sent in one go. */
export const MOST_REMINDERS = 50;

/** Reminders that were looked at: an invoice and its level. */
export const SendRemindersSchema = z.object({
  reminders: z
    .array(
      z
        .string()
        .regex(/^[1-9]\d{0,8}-[123]$/, "Open the page again.")
        .transform((text) => {
          const [id = "0", of = "1"] = text.split("-");
          return { id: Number(id), level: Number(of) };
        }),
    )
    .max(MOST_REMINDERS, `At most ${MOST_REMINDERS} at once.`)
    .default([]),
});

const reason = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(oneLine(120, "Keep this within 120 characters.").pipe(z.string().min(3, "Say why, in a few words.")));

export const StopSchema = z.object({
  invoiceId: recordId.optional(),
  customerId: recordId.optional(),
  reason,
  untilOn: z.preprocess(blank, z.iso.date("Enter a day, or none.").optional()),
});
export const EndStopSchema = z.object({ id: recordId });
export const WaiveFeeSchema = z.object({ reminderId: recordId, reason });
export const ChargeFeesSchema = z.object({ id: recordId, version: formId("Open the page again.") });

const days = (which: string) =>
  typedNumber({ name: `The days of the ${which}`, low: 1, high: 365, whole: true });
const fee = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(z.string().max(20, "Enter the fee in figures."));
const tick = z.literal("on").optional();

export const ReminderTermsSchema = z.object({
  version: z
    .string()
    .regex(/^\d{1,9}$/, "Open the page again.")
    .transform(Number),
  days1: days("first reminder"),
  days2: days("second reminder"),
  days3: days("last reminder"),
  fee1: fee,
  fee2: fee,
  fee3: fee,
  automatic1: tick,
  automatic2: tick,
  automatic3: tick,
  feeTaxMark: z.enum(["", "Z", "E", "O"], "Choose how a fee is taxed.").default(""),
});

/** The form's answers as terms, its fees in minor units. Throws Refusal for a fee that is no amount. */
export function typedTerms(
  input: z.output<typeof ReminderTermsSchema>,
  settings: { readonly currency: string; readonly locale: string },
): ReminderTerms {
  return {
    feeTaxMark: input.feeTaxMark,
    levels: LEVELS.map((one) => ({
      level: one,
      days: input[`days${one}`],
      feeMinor: input[`fee${one}`] === "" ? 0 : typedAmount(input[`fee${one}`], settings, `fee${one}`),
      automatic: input[`automatic${one}`] === "on",
    })),
  };
}
