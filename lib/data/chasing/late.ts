import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { type NextReminder, nextReminder, stopHolds, turnOf } from "@/lib/domain/chasing/nextReminder";
import type { ReminderTerms } from "@/lib/domain/chasing/reminderTerms";
import { writtenOff } from "@/lib/domain/invoices/held";
import { daysLate, outstanding } from "@/lib/domain/invoices/state";
import { dayIn } from "@/lib/domain/schedule/days";
import { MOST_CREDITS } from "../invoices/rows";

const STOPS = {
  where: { endedAt: null },
  select: { id: true, reason: true, untilOn: true, endedAt: true, personName: true },
  orderBy: { id: "asc" },
} as const;

/** An invoice as it is decided whether it is reminded of. */
export const LATE = {
  id: true,
  kind: true,
  state: true,
  written: true,
  saleId: true,
  issuedOn: true,
  dueOn: true,
  grossMinor: true,
  prepaidMinor: true,
  paidMinor: true,
  takenBack: true,
  customer: {
    select: { id: true, name: true, phone: true, email: true, noLetters: true, reminderStops: STOPS },
  },
  reminderStops: STOPS,
  payments: {
    select: { id: true, kind: true, paidOn: true, reversesId: true, amountMinor: true, roundingMinor: true },
    orderBy: { id: "asc" },
  },
  creditedBy: { select: { grossMinor: true }, orderBy: { id: "asc" }, take: MOST_CREDITS },
  reminders: { select: { level: true, turn: true, onDay: true }, orderBy: { id: "asc" } },
} satisfies Prisma.InvoiceSelect;

export type LateRow = Prisma.InvoiceGetPayload<{ select: typeof LATE }>;

/** Why an invoice is not reminded of. */
export type NotReminded = "notLate" | "writtenOff" | "stopped" | "allSent";

/** Where an invoice stands with its reminders on a day. */
export interface Chased {
  readonly leftMinor: number;
  readonly lateDays: number;
  readonly turn: number;
  readonly stop: { readonly id: number; readonly reason: string; readonly untilOn: string | null } | null;
  /** The reminder that comes next; null once all are written. */
  readonly next: NextReminder | null;
  readonly against: NotReminded | null;
}

/** `first`: the day of a reminder from before reminders were kept, which counts as the first one. */
export function chasedOn(row: LateRow, terms: ReminderTerms, today: string, first: string | null): Chased {
  const money = { ...row, credited: row.takenBack };
  const lateDays = row.kind === "invoice" && row.saleId === null ? daysLate(money, today) : 0;
  const begun = turnOf(row.payments);
  const turn = begun?.id ?? 0;
  const stop =
    [...row.reminderStops, ...(row.customer?.reminderStops ?? [])].find((one) => stopHolds(one, today)) ??
    null;
  const sent = [
    ...row.reminders.filter((one) => one.turn === turn),
    ...(first !== null && turn === 0 ? [{ level: 1, onDay: first }] : []),
  ];
  const next =
    row.dueOn === null
      ? null
      : nextReminder({ dueOn: row.dueOn, paidOn: begun?.paidOn ?? null, sent }, terms);
  return { leftMinor: outstanding(money), lateDays, turn, stop, next, against: against() };

  function against(): NotReminded | null {
    if (lateDays === 0) return "notLate";
    if (writtenOff(row.payments) > 0) return "writtenOff";
    if (stop) return "stopped";
    return next ? null : "allSent";
  }
}

/** The days of reminders from before they were kept as such, by invoice: of those of which none is kept. */
export async function firstReminders(
  db: Pick<ShopTx, "mail">,
  rows: readonly LateRow[],
  zone: string,
): Promise<ReadonlyMap<number, string>> {
  const ids = rows.filter((row) => row.reminders.length === 0).map((row) => row.id);
  if (ids.length === 0) return new Map();
  const mails = await db.mail.findMany({
    where: { letter: "paymentReminder", noun: "invoice", nounId: { in: ids } },
    select: { nounId: true, createdAt: true },
    orderBy: { id: "asc" },
  });
  return new Map(mails.map((mail) => [mail.nounId ?? 0, dayIn(zone, mail.createdAt)]));
}

/** Invoices that are late on a day. */
export const lateOn = (today: string) =>
  ({
    kind: "invoice",
    state: "issued",
    saleId: null,
    takenBack: false,
    dueOn: { lt: today },
    job: { state: "invoiced" },
  }) satisfies Prisma.InvoiceWhereInput;
