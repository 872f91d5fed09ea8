import { describe, expect, it } from "vitest";
import { billableMinutes } from "@/lib/domain/labour/billing";
import { corrected, stop, switchTo, type TimeEntry } from "@/lib/domain/labour/entries";
import { forgottenEntries, shiftEnd } from "@/lib/domain/labour/forgotten";
import { atGrades, sideBySide } from "@/lib/domain/labour/sideBySide";
import { Refusal } from "@/lib/domain/refusal";
import type { WorkingTime } from "@/lib/domain/schedule/working";

const MINUTE = 60_000;
const entry = (id: number, more: Partial<TimeEntry> = {}): TimeEntry => ({
  id,
  staffId: 1,
  jobId: 1,
  stepId: 1,
  startedAt: 0,
  endedAt: null,
  ...more,
});
const refusalOf = (run: () => unknown): Refusal => {
  try {
    run();
  } catch (error) {
    if (error instanceof Refusal) return error;
  }
  throw new Error("it was not refused");
};

describe("steps at a shop's labour grades", () => {
  const step = (minutes: number, grade: string) => ({ minutes, grade });
  it("keep a grade that the shop has; others count to the one with most planned minutes", () => {
    const steps = [
      step(30, "bench"),
      step(20, "floor"),
      step(25, "floor"),
      step(15, "ride"),
      step(90, "old"),
    ];
    const { steps: set, main } = atGrades(steps, ["floor", "bench"]);
    expect(main).toBe("floor");
    expect(set.map((s) => s.grade)).toEqual(["bench", "floor", "floor", "floor", "floor"]);
    expect(set.map((s) => s.minutes)).toEqual([30, 20, 25, 15, 90]);
  });

  it("count to the shop's first grade where no step has one of its grades, and to none where it has none", () => {
    expect(atGrades([step(30, "ride")], ["floor", "bench"])).toEqual({
      steps: [step(30, "floor")],
      main: "floor",
    });
    expect(atGrades([], ["floor"])).toEqual({ steps: [], main: "floor" });
    expect(atGrades([step(30, "ride")], [])).toEqual({ steps: [step(30, "")], main: "" });
  });
});

describe("time beside the plan", () => {
  const steps = [{ id: 1, minutes: 10, grade: "floor" }];
  it("counts what belongs to no step of the plan apart, at the grade for loose time, and no step without time", () => {
    const entries = [
      entry(1, { stepId: 9, endedAt: 2 * MINUTE }),
      entry(2, { stepId: null, endedAt: MINUTE }),
    ];
    const seen = sideBySide(steps, entries, "minutes", 0, "bench");
    expect(seen.steps).toEqual([
      { stepId: 1, plannedMinutes: 10, spentMinutes: 0, running: false },
      { stepId: null, plannedMinutes: 0, spentMinutes: 3, running: false },
    ]);
    expect(seen.grades).toEqual([{ grade: "bench", spentMinutes: 3, billedMinutes: 3 }]);
    expect(sideBySide(steps, entries, "minutes", 0).grades[0]?.grade).toBe("");
    expect(sideBySide(steps, [], "tenths", 0)).toMatchObject({
      grades: [],
      billedMinutes: 0,
      spentMinutes: 0,
    });
  });

  it("runs up to now and never below nothing", () => {
    const running = sideBySide(steps, [entry(1, { startedAt: 5 * MINUTE })], "minutes", 7.5 * MINUTE);
    expect(running.steps[0]).toMatchObject({ spentMinutes: 2.5, running: true });
    expect(running.billedMinutes).toBe(3);
    const early = sideBySide(steps, [entry(1, { startedAt: 5 * MINUTE })], "minutes", MINUTE);
    expect(early.steps[0]?.spentMinutes).toBe(0);
  });

  it("cannot be billed when it is endless", () => {
    expect(() => billableMinutes(Number.POSITIVE_INFINITY, "minutes")).toThrow("cannot be billed");
    expect(billableMinutes(0, "tenths")).toBe(0);
    expect(Object.is(billableMinutes(0, "minutes"), -0)).toBe(false);
  });
});

describe("entries of time", () => {
  it("of another job or step are switched from, of the same left running", () => {
    const on = [entry(3, { jobId: 5, stepId: 2, startedAt: 10 })];
    const to = (jobId: number, stepId: number | null) => switchTo(on, { staffId: 1, jobId, stepId }, 20);
    expect(to(5, 2)).toEqual({ stop: null, start: null });
    expect(to(6, 2).stop).toEqual({ id: 3, endedAt: 20 });
    expect(to(5, null).start).toMatchObject({ jobId: 5, stepId: null, startedAt: 20, endedAt: null });
    expect(to(5, 3).stop).toEqual({ id: 3, endedAt: 20 });
  });

  it("end at the instant they began at the earliest, and only those that run", () => {
    expect(stop([entry(1, { startedAt: 9 })], 1, 9)).toEqual({ id: 1, endedAt: 9 });
    expect(() => stop([entry(1, { endedAt: 5 })], 1, 9)).toThrow("Nothing is running.");
    expect(stop([entry(1, { endedAt: 5 }), entry(2)], 1, 9).id).toBe(2);
    expect(refusalOf(() => stop([], 1, 9)).kind).toBe("conflict");
    expect(refusalOf(() => stop([entry(1), entry(2)], 1, 9)).kind).toBe("conflict");
  });

  it("are corrected field by field, against others of the same person alone, running ones up to now", () => {
    const fix = (
      times: { startedAt: number; endedAt: number; reason?: string },
      others: TimeEntry[] = [],
      own = entry(1, { jobId: 4 }),
    ) => corrected(own, { reason: "why", ...times }, others, 100);
    expect(fix({ startedAt: 10, endedAt: 100 })).toEqual(entry(1, { jobId: 4, startedAt: 10, endedAt: 100 }));
    expect(Object.keys(refusalOf(() => fix({ startedAt: 10, endedAt: 20, reason: " " })).fields)).toEqual([
      "reason",
    ]);
    expect(Object.keys(refusalOf(() => fix({ startedAt: 20, endedAt: 10 })).fields)).toEqual(["endedAt"]);
    expect(refusalOf(() => fix({ startedAt: 20, endedAt: 101 })).fields).toEqual({
      endedAt: "Not in the future.",
    });
    const busy = entry(2, { startedAt: 90 });
    expect(refusalOf(() => fix({ startedAt: 80, endedAt: 95 }, [busy])).kind).toBe("conflict");
    expect(fix({ startedAt: 80, endedAt: 90 }, [busy]).endedAt).toBe(90);
    expect(fix({ startedAt: 80, endedAt: 95 }, [{ ...busy, staffId: 2 }]).endedAt).toBe(95);
    expect(fix({ startedAt: 80, endedAt: 95 }, [entry(1, { startedAt: 90 })]).endedAt).toBe(95);
    const past = entry(2, { startedAt: 0, endedAt: 30 });
    expect(() => fix({ startedAt: 20, endedAt: 40 }, [past, busy])).toThrow("already on something else");
    expect(fix({ startedAt: 30, endedAt: 40 }, [past, busy]).startedAt).toBe(30);
  });
});

describe("a shift's end", () => {
  const oslo = (hours: WorkingTime["hours"]): WorkingTime => ({
    hours,
    closures: [],
    absences: [],
    zone: "Europe/Oslo",
  });
  const day = { 1: [{ from: "08:00", to: "16:00" }] };
  const monday = (time: string) => Date.parse(`2026-03-02T${time}+01:00`);

  it("is the last of the local day, none on a day off or once it is over", () => {
    expect(shiftEnd(monday("09:00"), oslo(day))).toBe(monday("16:00"));
    expect(shiftEnd(monday("16:30"), oslo(day))).toBeNull();
    expect(shiftEnd(Date.parse("2026-03-03T09:00+01:00"), oslo(day))).toBeNull();
  });

  it("is half an hour away before an entry counts as forgotten; off shift it is four hours sharp", () => {
    const running = entry(1, { startedAt: monday("15:00") });
    const told = (now: number) => forgottenEntries([running], () => oslo(day), now);
    expect(told(monday("16:30"))).toEqual([]);
    expect(told(monday("16:30") + 1)).toEqual([{ entry: running, suggestedEnd: monday("16:00") }]);
    const evening = entry(2, { startedAt: monday("18:00") });
    const late = (now: number) => forgottenEntries([evening], () => oslo(day), now);
    expect(late(monday("22:00"))).toEqual([]);
    expect(late(monday("22:00") + 1)).toEqual([{ entry: evening, suggestedEnd: monday("22:00") }]);
  });

  it("is asked for each entry's own person", () => {
    const both = [
      entry(1, { startedAt: monday("15:00") }),
      entry(2, { staffId: 2, startedAt: monday("15:00") }),
    ];
    const late = { 1: [{ from: "08:00", to: "20:00" }] };
    const told = forgottenEntries(both, (staffId) => oslo(staffId === 1 ? day : late), monday("18:00"));
    expect(told.map((f) => f.entry.id)).toEqual([1]);
  });
});
