import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayAfter, instantOf } from "@/lib/domain/schedule/localTime";
import {
  isMailTime,
  isReminderDue,
  mailTimeFrom,
  type ReminderFacts,
  reminderDay,
} from "@/lib/domain/schedule/reminder";

const facts = fc.record({
  sent: fc.integer({ min: 0, max: 40 }),
  valid: fc.integer({ min: 0, max: 40 }),
  afterDays: fc.option(fc.integer({ min: 0, max: 30 })),
  beforeDays: fc.option(fc.integer({ min: 0, max: 30 })),
  today: fc.integer({ min: 0, max: 90 }),
});
const START = "2026-10-20";
const of = (f: { sent: number; valid: number; today: number }) => ({
  sentOn: dayAfter(START, f.sent),
  validUntil: dayAfter(START, f.sent + f.valid),
  today: dayAfter(START, f.today),
  callOn: null,
  openQuestions: 0,
});

describe("a reminder", () => {
  it("is due only while the quote is out, after the day it was sent, and never where no days are set", () => {
    fc.assert(
      fc.property(facts, (f) => {
        const due = isReminderDue({ ...f, ...of(f) });
        if (f.today <= f.sent || f.today > f.sent + f.valid) expect(due).toBe(false);
        if (!f.afterDays && !f.beforeDays) expect(due).toBe(false);
      }),
    );
  });

  it("once due stays due until the last day", () => {
    fc.assert(
      fc.property(facts, (f) => {
        const next = { ...f, today: f.today + 1 };
        fc.pre(next.today <= f.sent + f.valid);
        if (isReminderDue({ ...f, ...of(f) })) expect(isReminderDue({ ...next, ...of(next) })).toBe(true);
      }),
    );
  });

  it("rests while the shop owes an answer or has promised a call on a later day", () => {
    const due: ReminderFacts = {
      today: "2026-11-30",
      sentOn: "2026-11-25",
      validUntil: "2026-12-09",
      afterDays: 5,
      beforeDays: null,
      callOn: null,
      openQuestions: 0,
    };
    expect(isReminderDue(due)).toBe(true);
    expect(isReminderDue({ ...due, openQuestions: 1 })).toBe(false);
    expect(isReminderDue({ ...due, callOn: "2026-12-01" })).toBe(false);
    expect(isReminderDue({ ...due, callOn: "2026-11-30" })).toBe(true);
  });

  it("leaves from 8 o'clock and before 18 o'clock", () => {
    expect([479, 480, 1079, 1080].map(isMailTime)).toEqual([false, true, true, false]);
  });
});

describe("the day of a reminder", () => {
  it("is the first on which it is due, as looking at every day finds it", () => {
    const called = fc.record({ facts, callAfter: fc.option(fc.integer({ min: -5, max: 60 })) });
    fc.assert(
      fc.property(called, ({ facts: f, callAfter }) => {
        const { afterDays, beforeDays } = f;
        const { sentOn, validUntil } = of(f);
        const callOn = callAfter === null ? null : dayAfter(sentOn, callAfter);
        const asked = { sentOn, validUntil, afterDays, beforeDays, callOn };
        const all = Array.from({ length: 100 }, (_, at) => dayAfter(START, at));
        const owed = (today: string) => {
          // The rule in words, day by day: after the day of sending, not after the last, not before a promised call.
          if (today <= sentOn || today > validUntil || (callOn !== null && callOn > today)) return false;
          const since = afterDays ? today >= dayAfter(sentOn, afterDays) : false;
          return since || (beforeDays ? today >= dayAfter(validUntil, -beforeDays) : false);
        };
        expect(reminderDay(asked)).toBe(all.find(owed) ?? null);
        for (const today of all)
          expect(isReminderDue({ ...asked, today, openQuestions: 0 })).toBe(owed(today));
      }),
      { numRuns: 60 },
    );
  });
});

describe("the next time at which mail may be written", () => {
  const ZONE = "Europe/Oslo";
  const from = (day: string, time: string) => mailTimeFrom(instantOf(day, time, ZONE), ZONE);
  it("is now by day, else 8 o'clock on the clock there, also over the night in which it changes", () => {
    expect(from("2026-11-25", "12:34")).toBe(instantOf("2026-11-25", "12:34", ZONE));
    expect(from("2026-11-25", "08:00")).toBe(instantOf("2026-11-25", "08:00", ZONE));
    expect(from("2026-11-25", "07:59")).toBe(instantOf("2026-11-25", "08:00", ZONE));
    // Norway leaves summer time on Sunday 25 October 2026 (Directive 2000/84/EC): that night has 15 hours from 18 to 8.
    expect(from("2026-10-24", "18:00") - instantOf("2026-10-24", "18:00", ZONE)).toBe(15 * 3_600_000);
  });
});
