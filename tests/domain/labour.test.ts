import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { billableMinutes } from "@/lib/domain/labour/billing";
import { corrected, stop, switchTo, type TimeEntry } from "@/lib/domain/labour/entries";
import { forgottenEntries, shiftEnd } from "@/lib/domain/labour/forgotten";
import { sideBySide } from "@/lib/domain/labour/sideBySide";
import { Refusal } from "@/lib/domain/refusal";
import type { WorkingTime } from "@/lib/domain/schedule/working";

const MINUTE = 60_000;
const at = (text: string) => Date.parse(text);
const entry = (id: number, more: Partial<TimeEntry> = {}): TimeEntry => ({
  id,
  staffId: 1,
  jobId: 1,
  stepId: 1,
  startedAt: 0,
  endedAt: null,
  ...more,
});

describe("billing units", () => {
  it("bill begun minutes, or begun tenths of an hour (common practice)", () => {
    expect([0, 0.2, 1, 59.5].map((m) => billableMinutes(m, "minutes"))).toEqual([0, 1, 1, 60]);
    expect([0, 0.2, 6, 6.1, 61].map((m) => billableMinutes(m, "tenths"))).toEqual([0, 6, 6, 12, 66]);
    expect(billableMinutes(0.1 + 0.2 + 5.7, "tenths")).toBe(6);
    expect(() => billableMinutes(-1, "minutes")).toThrow(Refusal);
    expect(() => billableMinutes(Number.NaN, "minutes")).toThrow(Refusal);
  });

  it("never bill less than was spent, nor a whole unit more", () => {
    fc.assert(
      fc.property(
        fc.nat(100_000),
        fc.constantFrom("minutes" as const, "tenths" as const),
        (hundredths, unit) => {
          const spent = hundredths / 100;
          const size = unit === "tenths" ? 6 : 1;
          const billed = billableMinutes(spent, unit);
          expect(billed).toBeGreaterThanOrEqual(spent - 1e-6);
          expect(billed).toBeLessThan(spent + size);
          expect(billed % size).toBe(0);
        },
      ),
    );
  });
});

describe("planned, spent and billed", () => {
  it("stand side by side for each step, with time outside steps last", () => {
    const found = sideBySide(
      [
        { id: 1, minutes: 10, grade: "workshop" },
        { id: 2, minutes: 20, grade: "bench" },
      ],
      [
        entry(1, { endedAt: 4 * MINUTE }),
        entry(2, { staffId: 2, startedAt: MINUTE, endedAt: 5 * MINUTE }),
        entry(3, { stepId: 2, startedAt: 10 * MINUTE }),
        entry(4, { stepId: null, startedAt: 0, endedAt: MINUTE }),
      ],
      "tenths",
      15 * MINUTE,
      "workshop",
    );
    expect(found.steps).toEqual([
      { stepId: 1, plannedMinutes: 10, spentMinutes: 8, running: false },
      { stepId: 2, plannedMinutes: 20, spentMinutes: 5, running: true },
      { stepId: null, plannedMinutes: 0, spentMinutes: 1, running: false },
    ]);
    expect(found.grades).toEqual([
      { grade: "workshop", spentMinutes: 9, billedMinutes: 12 },
      { grade: "bench", spentMinutes: 5, billedMinutes: 6 },
    ]);
    expect(found).toMatchObject({ plannedMinutes: 30, spentMinutes: 14, billedMinutes: 18 });
  });

  it("bill two minutes over thirteen steps as one unit, not as thirteen", () => {
    const steps = Array.from({ length: 13 }, (_, at) => ({ id: at + 1, minutes: 10, grade: "workshop" }));
    const seconds = (120 / 13) * 1000;
    const entries = steps.map((step, at) =>
      entry(at, { stepId: step.id, startedAt: at * seconds, endedAt: (at + 1) * seconds }),
    );
    expect(sideBySide(steps, entries, "tenths", 0).billedMinutes).toBe(6);
    expect(sideBySide(steps, entries, "minutes", 0).billedMinutes).toBe(2);
  });

  it("do not make a step dearer for switching back and forth", () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 600_000 }), { minLength: 1, maxLength: 8 }),
        (lengths) => {
          const pieces = lengths.map((length, i) => entry(i, { endedAt: length }));
          const whole = [entry(0, { endedAt: lengths.reduce((a, b) => a + b, 0) })];
          const billed = (entries: TimeEntry[]) =>
            sideBySide([{ id: 1, minutes: 5, grade: "w" }], entries, "tenths", 0).billedMinutes;
          expect(billed(pieces)).toBe(billed(whole));
        },
      ),
    );
  });
});

describe("time entries", () => {
  it("one runs for each person: starting ends the other at the same instant", () => {
    const running = [entry(7, { startedAt: 100 }), entry(8, { staffId: 2 })];
    const change = switchTo(running, { staffId: 1, jobId: 1, stepId: 2 }, 500);
    expect(change).toEqual({
      stop: { id: 7, endedAt: 500 },
      start: { staffId: 1, jobId: 1, stepId: 2, startedAt: 500, endedAt: null },
    });
    expect(switchTo(running, { staffId: 1, jobId: 1, stepId: 1 }, 500)).toEqual({ stop: null, start: null });
    expect(switchTo([], { staffId: 1, jobId: 1, stepId: null }, 500).stop).toBeNull();
    expect(stop(running, 2, 9)).toEqual({ id: 8, endedAt: 9 });
    expect(() => stop([], 1, 9)).toThrow(Refusal);
    expect(() => stop(running, 1, 50)).toThrow(/before it began/);
    expect(() => stop([entry(1), entry(2)], 1, 9)).toThrow(/Two time entries/);
  });

  it("are corrected with a reason, in the past, and without overlap", () => {
    const other = entry(2, { startedAt: 50, endedAt: 60 });
    const fix = (startedAt: number, endedAt: number, reason = "Forgot to stop") =>
      corrected(entry(1), { startedAt, endedAt, reason }, [other], 100);
    expect(fix(0, 50)).toEqual(entry(1, { endedAt: 50 }));
    expect(() => fix(0, 51)).toThrow(/something else/);
    expect(() => fix(0, 50, " ")).toThrow(/reason/);
    expect(() => fix(70, 70)).toThrow(/end after/);
    expect(() => fix(70, 101)).toThrow(/future/);
  });
});

describe("a forgotten entry", () => {
  const hours = {
    1: [
      { from: "08:00", to: "12:00" },
      { from: "13:00", to: "17:00" },
    ],
  };
  const oslo: WorkingTime = { hours, closures: [], absences: [], zone: "Europe/Oslo" };
  const monday = (time: string) => at(`2026-03-02T${time}Z`);

  it("is one that runs on past the shift, not past lunch", () => {
    const morning = entry(1, { startedAt: monday("08:00") });
    expect(shiftEnd(morning.startedAt, oslo)).toBe(monday("16:00"));
    expect(forgottenEntries([morning], () => oslo, monday("11:50"))).toEqual([]);
    expect(forgottenEntries([morning], () => oslo, monday("16:30"))).toEqual([]);
    expect(forgottenEntries([morning], () => oslo, monday("16:31"))).toEqual([
      { entry: morning, suggestedEnd: monday("16:00") },
    ]);
    expect(forgottenEntries([{ ...morning, endedAt: monday("16:00") }], () => oslo, monday("20:00"))).toEqual(
      [],
    );
  });

  it("begun outside a shift is forgotten after four hours", () => {
    const late = entry(1, { startedAt: monday("17:00") });
    expect(forgottenEntries([late], () => oslo, monday("20:59"))).toEqual([]);
    expect(forgottenEntries([late], () => oslo, monday("21:01"))[0]?.suggestedEnd).toBe(monday("21:00"));
  });
});
