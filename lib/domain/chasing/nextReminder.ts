import { dayAfter } from "../schedule/localTime";
import type { LevelTerms, ReminderLevel, ReminderTerms } from "./reminderTerms";

/** A row of money of an invoice, as far as reminding begins anew with it. */
export interface TurnRow {
  readonly id: number;
  readonly kind: string;
  readonly paidOn: string;
  readonly reversesId: number | null;
}

/** The payment with which reminding began anew: the last that was not taken back; null where none was paid. */
export function turnOf(rows: readonly TurnRow[]): { readonly id: number; readonly paidOn: string } | null {
  const reversed = new Set(rows.map((row) => row.reversesId));
  const paid = rows.filter((row) => row.kind === "payment" && !reversed.has(row.id));
  return paid.reduce<TurnRow | null>((last, row) => (last === null || row.id > last.id ? row : last), null);
}

/** A late invoice as far as it is decided by that. Days are "YYYY-MM-DD". */
export interface Reminded {
  readonly dueOn: string;
  /** The day of the payment with which reminding began anew; null where none was. */
  readonly paidOn: string | null;
  /** The reminders since then. */
  readonly sent: readonly { readonly level: number; readonly onDay: string }[];
}

export interface NextReminder extends LevelTerms {
  readonly level: ReminderLevel;
  readonly days: number;
  /** The day from which it is to be written. */
  readonly fromDay: string;
}

/**
 * The reminder that comes next of a late invoice; null once the last one is written. It is due so many days after the invoice was, or
 * after the last payment where that is later, and never sooner after the one before it than the shop's days lie apart: whoever turns
 * reminders on does not send three in three days. Common practice, no source.
 */
export function nextReminder(of: Reminded, terms: ReminderTerms): NextReminder | null {
  const last = of.sent.reduce<{ level: number; onDay: string } | null>(
    (found, one) => (found === null || one.level > found.level ? one : found),
    null,
  );
  const next = terms.levels.find((one) => one.level > (last?.level ?? 0) && one.days !== null);
  if (!next || next.days === null) return null;
  const begun = of.paidOn !== null && of.paidOn > of.dueOn ? of.paidOn : of.dueOn;
  const planned = dayAfter(begun, next.days);
  const before = terms.levels.find((one) => one.level === last?.level)?.days ?? null;
  const apart = Math.max(1, next.days - (before ?? 0));
  const soonest = last ? dayAfter(last.onDay, apart) : planned;
  const [, fromDay = planned] = [planned, soonest].sort();
  return { ...next, days: next.days, fromDay };
}

/** A stop as far as it holds. */
export interface Stop {
  readonly untilOn: string | null;
  readonly endedAt: Date | null;
}

/** True where a stop holds on a day: nobody ended it, and its last day is not over. */
export const stopHolds = ({ untilOn, endedAt }: Stop, day: string): boolean =>
  endedAt === null && (untilOn === null || untilOn >= day);
