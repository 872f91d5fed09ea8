import type { LetterKind, LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { wordsIn } from "@/lib/words/words";
import type { FrozenInvoice } from "../documents/invoice";
import { invoiceValues } from "../invoices/letterValues";
import type { MadeLink } from "../mail/customerLinks";

const KINDS = ["paymentReminder", "paymentReminder2", "paymentReminder3"] as const satisfies LetterKind[];

/** Which letter a reminder is. */
export const letterOfLevel = (level: number): (typeof KINDS)[number] => KINDS[level - 1] ?? KINDS[0];

/** What a payment reminder says; `leftMinor` is what is still to be paid, `feesMinor` what is asked for reminding so far. */
export function reminderValues(
  doc: FrozenInvoice,
  of: { leftMinor: number; feesMinor: number; words: string; howToPay: string; link: MadeLink },
): LetterValues<"paymentReminder"> {
  const { greeting, number, purpose, link, linkUntil } = invoiceValues(doc, of.link, "");
  const money = (minor: number) => formatMoney(minor, doc.currency, doc.locale);
  return {
    greeting,
    number,
    purpose,
    link,
    linkUntil,
    due: wordsIn(doc.locale)("mails.day", { day: new Date(`${doc.dueOn}T00:00:00Z`) }),
    left: money(of.leftMinor),
    fee: of.feesMinor > 0 ? money(of.feesMinor) : "",
    asked: of.feesMinor > 0 ? money(of.leftMinor + of.feesMinor) : "",
    bankDetails: of.howToPay,
    words: of.words,
  };
}
