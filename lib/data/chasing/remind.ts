import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { AskedFee } from "@/lib/domain/chasing/reminderPaper";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { hashOf } from "../common/hash";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import type { FrozenReminder } from "../documents/reminder";
import { payAskOf } from "../invoices/paying";
import { encloseIn, encloseInvoiceIn } from "../mail/attachments";
import { linkIn } from "../mail/customerLinks";
import { demandWritten, type Written, withheldFrom, writeLetterIn } from "../mail/letters";
import { payText } from "../shop/account";
import { openFees } from "./fees";
import { type Chased, chasedOn, firstReminders, LATE, type LateRow } from "./late";
import { letterheadOf } from "./letterhead";
import { letterOfLevel, reminderValues } from "./reminderLetter";
import { reminderTerms } from "./terms";

interface Asked {
  readonly id: number;
  /** Which reminder was looked at: another one that is next now is refused. */
  readonly level?: number | undefined;
  /** What whoever reminds writes besides; may be empty. */
  readonly words: string;
  /** The product's address. */
  readonly origin: string;
  /** Handed over or posted by the shop in place of a mail. */
  readonly byHand?: boolean | undefined;
  readonly key?: string | undefined;
}

/** Reminds the customer of a late invoice: a letter with what is left, the account, the link, the reminder and the invoice. */
export async function remindOfPayment(
  shop: ShopHandle,
  input: Asked,
): Promise<{ to: string; reminderId: number }> {
  return shop.write((tx) =>
    once(tx, shop, "reminded of a payment", input, async () => {
      const { customer, written, reminderId } = await remindIn(tx, shop, { ...input, automatic: false });
      if (!input.byHand) demandWritten(written, customer);
      return { to: input.byHand ? "" : customer.email, reminderId };
    }),
  );
}

const nobody = { name: "", phone: "", email: "", noLetters: false };

/**
 * Writes the reminder that is next, once for its level since the last payment, in a transaction of the caller's. Refused where the
 * invoice is not late as it stands in this transaction, credited, written off, stopped, or all reminders are written.
 */
export async function remindIn(tx: ShopTx, shop: ShopHandle, input: Asked & { readonly automatic: boolean }) {
  const { id, words, origin } = input;
  const row = await tx.invoice.findUnique({ where: { id }, select: { ...LATE, frozen: true } });
  if (!row) throw new Refusal("There is no such invoice.", "Choose one from the list.", {}, "missing");
  const { zone, ...head } = await letterheadOf(tx);
  const today = dayIn(zone, shop.now);
  const first = (await firstReminders(tx, [row], zone)).get(id) ?? null;
  const chased = chasedOn(row, await reminderTerms(tx), today, first);
  const next = demandNext(row, chased, input.level);
  const customer = row.customer ?? nobody;
  const withheld = input.byHand ? null : await withheldFrom(tx, letterOfLevel(next.level), customer);
  if (withheld) return { customer, written: { withheld } satisfies Written as Written, reminderId: 0 };
  const doc = storedInvoice(row.frozen);
  const own: AskedFee[] =
    next.feeMinor > 0 ? [{ level: next.level, onDay: today, minor: next.feeMinor }] : [];
  const fees = [...(await openFees(tx, { invoiceId: id })).map(({ fee }) => fee), ...own];
  const ask = await payAskOf(tx, doc);
  const link = await linkIn(tx, shop, "invoice", { invoiceId: id });
  const written: Written = input.byHand
    ? { mailId: 0 }
    : await writeLetterIn(tx, shop, {
        kind: letterOfLevel(next.level),
        to: customer,
        locale: doc.locale,
        values: reminderValues(doc, {
          leftMinor: chased.leftMinor,
          feesMinor: fees.reduce((sum, fee) => sum + fee.minor, 0),
          words,
          howToPay: payText(ask, doc.locale),
          link: { ...link, path: `${origin}${link.path}` },
        }),
        about: { noun: "invoice", nounId: id },
      });
  const frozen: FrozenReminder = {
    format: "throttlewright-reminder",
    version: 1,
    level: next.level,
    day: today,
    invoice: invoiceOn(row, doc, chased.leftMinor),
    fees,
    words,
    ask,
    ...head,
    buyer: { name: doc.buyer.name, address: doc.buyer.address, taxNumber: doc.buyer.taxNumber },
    locale: doc.locale,
  };
  const mailId = "mailId" in written && written.mailId > 0 ? written.mailId : null;
  const reminder = await tx.reminder.create({
    data: {
      invoiceId: id,
      level: next.level,
      turn: chased.turn,
      onDay: today,
      leftMinor: chased.leftMinor,
      feeMinor: next.feeMinor,
      automatic: input.automatic,
      mailId,
      frozen: frozen as unknown as Prisma.InputJsonObject,
      hash: hashOf(frozen),
      staffId: shop.by.staffId,
      at: shop.now,
    },
    select: { id: true },
  });
  if (mailId !== null) {
    const name = `reminder-${next.level}-${row.written}.pdf`;
    await encloseIn(tx, mailId, { noun: "reminder", nounId: reminder.id, form: "pdf", name });
    await encloseInvoiceIn(tx, mailId, id, doc);
  }
  await audit(tx, shop, "reminded of", "invoice", id, {
    number: row.written,
    level: next.level,
    ...(input.automatic ? { automatic: true } : {}),
    ...(next.feeMinor > 0 ? { feeMinor: next.feeMinor } : {}),
  });
  return { customer, written, reminderId: reminder.id };
}

function invoiceOn(row: LateRow, doc: FrozenInvoice, leftMinor: number): FrozenReminder["invoice"] {
  const { written, issuedOn, dueOn, grossMinor } = doc;
  const creditedMinor = row.creditedBy.reduce((sum, credit) => sum - credit.grossMinor, 0);
  return {
    written,
    issuedOn,
    dueOn,
    grossMinor,
    creditedMinor,
    paidMinor: grossMinor - creditedMinor - leftMinor,
    leftMinor,
    purpose: doc.jobs.map((job) => `${job.title} (${job.bike.name})`).join(", "),
  };
}

/** The reminder that is next, as it was looked at; a refusal where none is. */
function demandNext({ written }: LateRow, { against, stop, next }: Chased, level: number | undefined) {
  const refuse = (message: string, remedy: string) => new Refusal(message, remedy, {}, "conflict");
  if (against === "notLate")
    throw refuse(
      "Nothing of this is late.",
      "A payment reminder is written once the day of payment is over and something is left to pay.",
    );
  if (against === "writtenOff")
    throw refuse(
      `Some of invoice ${written} is written off: nothing more is asked for it.`,
      "Take the write-off back first, where it is to be paid after all.",
    );
  if (against === "stopped")
    throw refuse(
      `Reminders of invoice ${written} are stopped: ${stop?.reason ?? ""}.`,
      "End the stop first, where it holds no more.",
    );
  if (!next)
    throw refuse(
      `All reminders of invoice ${written} are written.`,
      "Call the customer, agree on instalments, or have it collected.",
    );
  if (level !== undefined && level !== next.level)
    throw refuse(
      `Another reminder of invoice ${written} is next now.`,
      "Look at it as it stands, then send it.",
    );
  return next;
}
