import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { isMailTime, isReminderDue, type ReminderFacts } from "@/lib/domain/schedule/reminder";

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
