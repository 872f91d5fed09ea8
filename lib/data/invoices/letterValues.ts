import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { type Said, wordsIn } from "@/lib/words/words";
import type { FrozenInvoice } from "../documents/invoice";
import type { MadeLink } from "../mail/customerLinks";

const KIND = {
  invoice: "mails.kindInvoice",
  creditNote: "mails.kindCreditNote",
  receipt: "mails.kindReceipt",
} as const;

/** What a document charges, in a few words. */
const forWhat = ({ jobs }: FrozenInvoice, say: Said): string =>
  jobs.length === 0
    ? say("mails.overCounter")
    : jobs.map((job) => `${job.title} (${job.bike.name})`).join(", ");

const dayOf = (text: string) => new Date(`${text}T00:00:00Z`);

/** What a letter about an issued document says; `link` is whole, with the product's address, `howToPay` what an open one adds. */
export function invoiceValues(doc: FrozenInvoice, link: MadeLink, howToPay: string): LetterValues<"invoice"> {
  const say = wordsIn(doc.locale);
  const isOpen = doc.dueMinor > 0 && doc.settlements.length === 0;
  return {
    greeting: doc.buyer.name ? say("mails.dear", { name: doc.buyer.name }) : say("mails.goodDay"),
    what: say(KIND[doc.kind]),
    number: doc.written,
    purpose: forWhat(doc, say),
    amount: formatMoney(doc.dueMinor, doc.currency, doc.locale),
    due: isOpen ? say("mails.day", { day: dayOf(doc.dueOn) }) : "",
    bankDetails: isOpen ? howToPay : "",
    link: link.path,
    linkUntil: say("mails.day", { day: link.expiresAt }),
  };
}
