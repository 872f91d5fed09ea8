import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { daysLate, outstanding } from "@/lib/domain/invoices/state";
import type { LetterValues } from "@/lib/domain/letters/kinds";
import { formatMoney } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { wordsIn } from "@/lib/words/words";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import { encloseInvoiceIn } from "../mail/attachments";
import { linkIn, type MadeLink } from "../mail/customerLinks";
import {
  demandWritten,
  letterChoice,
  type Written,
  wasWritten,
  withheldFrom,
  writeLetterIn,
} from "../mail/letters";
import { payText } from "../shop/account";
import { invoiceValues } from "./letterValues";
import { payAskOf } from "./paying";

interface Asked {
  readonly id: number;
  /** What whoever reminds writes besides; may be empty. */
  readonly words: string;
  /** The product's address. */
  readonly origin: string;
  readonly key?: string | undefined;
}

/** Reminds the customer of a late invoice, by hand: a letter with what is left, the account, the link and the paper. */
export async function remindOfPayment(shop: ShopHandle, input: Asked): Promise<{ to: string }> {
  const to = await shop.write((tx) =>
    once(tx, shop, "reminded of a payment", input, async () => {
      const { customer, written } = await remindIn(tx, shop, input);
      demandWritten(written, customer);
      return customer.email;
    }),
  );
  return { to };
}

/** What a payment reminder says; `left` is what is still to be paid, in minor units. */
export function paymentValues(
  doc: FrozenInvoice,
  of: { leftMinor: number; words: string; howToPay: string; link: MadeLink },
): LetterValues<"paymentReminder"> {
  const { greeting, number, purpose, link, linkUntil } = invoiceValues(doc, of.link, "");
  return {
    greeting,
    number,
    purpose,
    link,
    linkUntil,
    due: wordsIn(doc.locale)("mails.day", { day: new Date(`${doc.dueOn}T00:00:00Z`) }),
    left: formatMoney(of.leftMinor, doc.currency, doc.locale),
    bankDetails: of.howToPay,
    words: of.words,
  };
}

async function remindIn(tx: ShopTx, shop: ShopHandle, { id, words, origin }: Asked) {
  const row = await tx.invoice.findUnique({
    where: { id },
    select: {
      kind: true,
      state: true,
      written: true,
      dueOn: true,
      grossMinor: true,
      prepaidMinor: true,
      paidMinor: true,
      frozen: true,
      takenBack: true,
      customer: { select: { name: true, phone: true, email: true, noLetters: true } },
    },
  });
  if (!row) throw new Refusal("There is no such invoice.", "Choose one from the list.", {}, "missing");
  const { zone } = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true },
  });
  const money = { ...row, credited: row.takenBack };
  if (row.kind !== "invoice" || daysLate(money, dayIn(zone, shop.now)) === 0)
    throw new Refusal(
      "Nothing of this is late.",
      "A payment reminder is written once the day of payment is over and something is left to pay.",
      {},
      "conflict",
    );
  const customer = row.customer ?? { name: "", phone: "", email: "", noLetters: false };
  const withheld = await withheldFrom(tx, "paymentReminder", customer);
  if (withheld) return { customer, written: { withheld } satisfies Written as Written };
  const doc = storedInvoice(row.frozen);
  const link = await linkIn(tx, shop, "invoice", { invoiceId: id });
  const written = await writeLetterIn(tx, shop, {
    kind: "paymentReminder",
    to: customer,
    locale: doc.locale,
    values: paymentValues(doc, {
      leftMinor: outstanding(money),
      words,
      howToPay: payText(await payAskOf(tx, doc), doc.locale),
      link: { ...link, path: `${origin}${link.path}` },
    }),
    about: { noun: "invoice", nounId: id },
  });
  if ("mailId" in written) await encloseInvoiceIn(tx, written.mailId, id, doc);
  await audit(tx, shop, "reminded of", "invoice", id, { number: row.written });
  return { customer, written };
}

/** So much in one round; what is left waits for the next. */
const MOST = 50;
/** What has been late for longer than this is no longer a matter for a machine's letter (judgement, in days). */
const TOO_LATE = 60;

/**
 * Reminds of what is late, where the shop wants that: once for each invoice, and not of one that somebody has reminded of
 * by hand. Safe to repeat and to run in several processes at once.
 */
export async function paymentRound(shop: ShopHandle, origin: string, zone: string): Promise<number> {
  const { on, days } = await letterChoice(shop.read, "paymentReminder");
  if (!on || days === null) return 0;
  const today = dayIn(zone, shop.now);
  const rows = await shop.read.invoice.findMany({
    where: {
      kind: "invoice",
      state: "issued",
      dueOn: { lte: daysAfter(today, -days), gte: daysAfter(today, -days - TOO_LATE) },
      job: { state: "invoiced" },
      takenBack: false,
      customer: { email: { not: "" }, noLetters: false },
    },
    select: { id: true },
    orderBy: { id: "asc" },
    take: MOST * 10,
  });
  let reminded = 0;
  for (const { id } of rows) {
    if (reminded >= MOST) break;
    reminded += await shop.write(async (tx) => {
      if (await wasWritten(tx, "paymentReminder", { noun: "invoice", nounId: id })) return 0;
      const key = `payment-reminder-${id}`;
      return once(tx, shop, "reminded of a payment in a round", { key, id }, async () => {
        const { written } = await remindIn(tx, shop, { id, words: "", origin });
        return "mailId" in written ? 1 : 0;
      });
    });
  }
  return reminded;
}
