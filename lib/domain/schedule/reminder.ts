import { dayAfter } from "./localTime";

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

/** Nobody wants a workshop's mail at night: from 8 to before 18 o'clock (minutes after midnight). Judgement. */
export function isMailTime(minuteOfDay: number): boolean {
  return minuteOfDay >= 8 * 60 && minuteOfDay < 18 * 60;
}

/**
 * Whether a quote without an answer is to be reminded of: from the earlier of the two days on, never on the day it was sent
 * or after its last, and not while the shop itself owes an answer or has promised a call. Judgement.
 */
export function isReminderDue(facts: ReminderFacts): boolean {
  const { today, sentOn, validUntil, afterDays, beforeDays, callOn, openQuestions } = facts;
  if (today <= sentOn || today > validUntil || openQuestions > 0) return false;
  if (callOn !== null && callOn > today) return false;
  const after = afterDays ? today >= dayAfter(sentOn, afterDays) : false;
  const before = beforeDays ? today >= dayAfter(validUntil, -beforeDays) : false;
  return after || before;
}
