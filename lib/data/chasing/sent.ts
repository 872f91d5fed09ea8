import type { ShopTx } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { storedInvoice } from "../documents/invoice";
import { storedReminder } from "../documents/reminder";
import { payAskOf } from "../invoices/paying";
import { letterToFill, withheldFrom } from "../mail/letters";
import { payText } from "../shop/account";
import { openFees } from "./fees";
import { chasedOn, firstReminders, LATE } from "./late";
import { letterOfLevel, reminderValues } from "./reminderLetter";
import { type StopOf, stopsOf } from "./stops";
import { reminderTerms } from "./terms";

type Reader = Pick<
  ShopTx,
  | "invoice"
  | "invoiceEdit"
  | "mail"
  | "bankAccount"
  | "letter"
  | "letterText"
  | "reminder"
  | "reminderStop"
  | "reminderTerms"
  | "settings"
>;

const MOST = 40;

/** The reminders of an invoice, or of a customer's, the newest first, each with its mail and what became of its fee; and what stops them. */
export async function remindersOf(db: Reader, of: StopOf, today: string) {
  const [rows, fees, stops, stopsOfTheirs] = await Promise.all([
    db.reminder.findMany({
      where: "invoiceId" in of ? of : { invoice: { customerId: of.customerId } },
      select: {
        id: true,
        level: true,
        onDay: true,
        leftMinor: true,
        feeMinor: true,
        automatic: true,
        mailId: true,
        invoice: { select: { id: true, written: true } },
        waived: { select: { reason: true } },
      },
      orderBy: { id: "desc" },
      take: MOST,
    }),
    openFees(db, of),
    stopsOf(db, of, today),
    "invoiceId" in of ? stopsOfCustomer(db, of.invoiceId, today) : [],
  ]);
  const mails = await db.mail.findMany({
    where: { id: { in: rows.flatMap((row) => row.mailId ?? []) } },
    select: { id: true, to: true, state: true },
    orderBy: { id: "asc" },
  });
  const open = new Set(fees.map((fee) => fee.reminderId));
  return {
    sent: rows.map(({ mailId, waived, ...row }) => ({
      ...row,
      mail: mails.find((mail) => mail.id === mailId) ?? null,
      fee: row.feeMinor === 0 ? null : waived ? "waived" : open.has(row.id) ? "open" : "charged",
    })),
    stops: [...stops, ...stopsOfTheirs],
  };
}

/** An invoice is not reminded of either where its customer is not. */
async function stopsOfCustomer(db: Reader, invoiceId: number, today: string) {
  const row = await db.invoice.findUnique({ where: { id: invoiceId }, select: { customerId: true } });
  return row?.customerId ? stopsOf(db, { customerId: row.customerId }, today) : [];
}

export type SentReminders = Awaited<ReturnType<typeof remindersOf>>;

/** A late invoice with the reminder that is next, as its letter would read now; null where there is no such issued invoice. */
export async function reminderToSend(db: Reader, id: number, now: Date, words = "") {
  const [row, { zone }, terms, before] = await Promise.all([
    db.invoice.findUnique({ where: { id }, select: { ...LATE, frozen: true } }),
    db.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } }),
    reminderTerms(db),
    openFees(db, { invoiceId: id }),
  ]);
  if (row?.state !== "issued") return null;
  const today = dayIn(zone, now);
  const first = (await firstReminders(db, [row], zone)).get(id) ?? null;
  const chased = chasedOn(row, terms, today, first);
  const about = { id: row.id, written: row.written, customer: row.customer, dueOn: row.dueOn, today };
  if (!chased.next || chased.against) return { ...about, ...chased, letter: null };
  const kind = letterOfLevel(chased.next.level);
  const doc = storedInvoice(row.frozen);
  const feesMinor = before.reduce((sum, { fee }) => sum + fee.minor, chased.next.feeMinor);
  const to = row.customer ?? { email: "", noLetters: false };
  const [fill, ask, withheld] = await Promise.all([
    letterToFill(db, kind, doc.locale),
    payAskOf(db, doc),
    withheldFrom(db, kind, to),
  ]);
  const letter = fill(
    reminderValues(doc, {
      leftMinor: chased.leftMinor,
      feesMinor,
      words,
      howToPay: payText(ask, doc.locale),
      link: { path: "(the link is made as it is sent)", expiresAt: now },
    }),
  );
  return { ...about, ...chased, letter, feesMinor, withheld };
}

/** A reminder as it was written; null where there is none. */
export async function getReminder(db: Pick<ShopTx, "reminder">, id: number) {
  const row = await db.reminder.findUnique({
    where: { id },
    select: { level: true, frozen: true, invoice: { select: { written: true } } },
  });
  return row && { level: row.level, written: row.invoice.written, paper: storedReminder(row.frozen) };
}
