import { dayAfter, dayOf, instantOf, minuteOfDay } from "./localTime";

export interface ReminderFacts {
  /** The shop's calendar days, "2026-11-25". */
  readonly today: string;
  readonly sentOn: string;
  readonly validUntil: string;
  /** Days after sending, and before it runs out; null or 0 is never. */
  readonly afterDays: number | null;
  readonly beforeDays: number | null;
  /** The day on which someone means to call about it; null where nobody does. */
  readonly callOn: string | null;
  /** Questions of the customer that the shop has not answered. */
  readonly openQuestions: number;
}

const [FIRST_MINUTE, LAST_MINUTE] = [8 * 60, 18 * 60];

/** Nobody wants a workshop's mail at night: from 8 to before 18 o'clock (minutes after midnight). Judgement. */
export function isMailTime(minuteOfDay: number): boolean {
  return minuteOfDay >= FIRST_MINUTE && minuteOfDay < LAST_MINUTE;
}

/** The first instant from `at` on (epoch milliseconds) at which mail may be written, on the clock of a zone (IANA name). */
export function mailTimeFrom(at: number, zone: string): number {
  const minute = minuteOfDay(at, zone);
  if (isMailTime(minute)) return at;
  const today = dayOf(at, zone);
  return instantOf(minute < FIRST_MINUTE ? today : dayAfter(today), "08:00", zone);
}

/** The day ("YYYY-MM-DD") from which a quote is to be reminded of by these facts alone; null where it never is. */
export function reminderDay(facts: Omit<ReminderFacts, "today" | "openQuestions">): string | null {
  const { sentOn, validUntil, afterDays, beforeDays, callOn } = facts;
  const [first] = [
    ...(afterDays ? [dayAfter(sentOn, afterDays)] : []),
    ...(beforeDays ? [dayAfter(validUntil, -beforeDays)] : []),
  ].sort();
  if (first === undefined) return null;
  const day = [first, dayAfter(sentOn), callOn ?? ""].sort().at(-1) ?? first;
  return day > validUntil ? null : day;
}

/**
 * Whether a quote without an answer is to be reminded of: from the earlier of the two days on, never on the day it was sent
 * or after its last, and not while the shop itself owes an answer or has promised a call. Judgement.
 */
export function isReminderDue({ today, openQuestions, ...facts }: ReminderFacts): boolean {
  const day = reminderDay(facts);
  return day !== null && day <= today && today <= facts.validUntil && openQuestions === 0;
}
