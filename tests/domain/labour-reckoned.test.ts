import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { corrected, type TimeEntry } from "@/lib/domain/labour/entries";
import { type Billed, reckon, summed, summedBy } from "@/lib/domain/labour/reckoned";
import { usually } from "@/lib/domain/labour/usual";

const MINUTE = 60_000;
const RATES: Record<string, number> = { workshop: 11_000, tuning: 13_550 };
const rateOf = (grade: string) => RATES[grade] ?? 0;
const entry = (
  id: number,
  staffId: number,
  stepId: number | null,
  from: number,
  to: number | null,
): TimeEntry => ({
  id,
  staffId,
  jobId: 1,
  stepId,
  startedAt: from,
  endedAt: to,
});
const steps = [
  { id: 1, minutes: 15, grade: "workshop" },
  { id: 2, minutes: 12, grade: "tuning" },
  { id: 3, minutes: 12, grade: "workshop" },
];

describe("planned, spent and billed", () => {
  it("of a job of two people: 20 min on a planned 15, as agreed and then as worked (worked by hand)", () => {
    const entries = [
      entry(1, 7, 1, 0, 12 * MINUTE),
      entry(2, 8, 1, 0, 8 * MINUTE),
      entry(3, 7, 2, 12 * MINUTE, 22 * MINUTE),
      entry(4, 7, null, 22 * MINUTE, 25 * MINUTE),
    ];
    const job = { steps, entries, loose: "workshop" };
    const fixed = reckon(job, rateOf, { basis: "fixed", minutes: 39, minor: 7660 }, 0);
    expect(
      [...summedBy(fixed, (cell) => cell.stepId)].map(([id, of]) => [
        id,
        of.plannedMinutes,
        of.spentMinutes,
        of.billedMinutes,
      ]),
    ).toEqual([
      [1, 15, 20, 15],
      [2, 12, 10, 12],
      [3, 12, 0, 12],
      [null, 0, 3, 0],
    ]);
    expect(
      [...summedBy(fixed, (cell) => cell.staffId)].map(([id, of]) => [
        id,
        of.plannedMinutes,
        of.spentMinutes,
      ]),
    ).toEqual([
      [7, 21, 25],
      [8, 6, 8],
      [null, 12, 0],
    ]);
    // 27 min at 110.00 an hour and 12 at 135.50; 23 min and 10.
    expect(summed(fixed)).toMatchObject({
      plannedMinor: 4950 + 2710,
      spentMinor: 4217 + 2258,
      billedMinor: 7660,
    });
    const worked = reckon(job, rateOf, { basis: "asWorked", minutes: 33, minor: 6475 }, 0);
    expect([...summedBy(worked, (cell) => cell.stepId).values()].map((of) => of.billedMinutes)).toEqual([
      20, 10, 0, 3,
    ]);
    expect(summed(reckon(job, rateOf, null, 0))).toMatchObject({ billedMinutes: null, billedMinor: null });
  });

  it("sums to the job's total by step, operation, person and any split, to the minute and the cent, whatever was corrected", () => {
    const anyEntries = fc.array(
      fc.record({
        staffId: fc.integer({ min: 1, max: 3 }),
        stepId: fc.option(fc.integer({ min: 1, max: 6 }), { nil: null }),
        pause: fc.integer({ min: 0, max: 3_000_000 }),
        length: fc.integer({ min: 1, max: 9_000_000 }),
      }),
      { maxLength: 12 },
    );
    const anySteps = fc.array(
      fc.record({
        minutes: fc.integer({ min: 0, max: 400 }),
        grade: fc.constantFrom("workshop", "tuning", "none"),
      }),
      { maxLength: 5 },
    );
    const anyBilled = fc.option(
      fc.record({
        basis: fc.constantFrom("fixed" as const, "asWorked" as const),
        minutes: fc.integer({ min: 0, max: 2000 }),
        minor: fc.integer({ min: 0, max: 900_000 }),
      }),
      { nil: null },
    );
    const anyCorrection = fc.record({
      at: fc.nat({ max: 11 }),
      startedAt: fc.integer({ min: 0, max: 200_000_000 }),
      length: fc.integer({ min: -1000, max: 9_000_000 }),
    });
    fc.assert(
      fc.property(
        anySteps,
        anyEntries,
        anyBilled,
        fc.array(anyCorrection, { maxLength: 6 }),
        (plan, times, billed, corrections) => {
          const now = 300_000_000;
          const clocks = new Map<number, number>();
          let entries = times.map((one, at) => {
            const from = (clocks.get(one.staffId) ?? 0) + one.pause;
            clocks.set(one.staffId, from + one.length);
            return entry(at + 1, one.staffId, one.stepId, from, from + one.length);
          });
          for (const { at, startedAt, length } of corrections) {
            const found = entries[at];
            if (!found) continue;
            const to = { startedAt, endedAt: startedAt + length, reason: "Forgot to stop" };
            try {
              const right = corrected(found, to, entries, now);
              entries = entries.map((one) => (one.id === found.id ? right : one));
            } catch {
              // Refused: the entry stays as it was.
            }
          }
          const job = {
            steps: plan.map((step, at) => ({ ...step, id: at + 1 })),
            entries,
            loose: "workshop",
          };
          const cells = reckon(job, rateOf, billed as Billed | null, now);
          const all = summed(cells);
          const exact = entries.reduce((ms, one) => ms + (one.endedAt ?? now) - one.startedAt, 0) / MINUTE;
          expect(all.spentMinutes).toBe(Math.round(exact));
          expect(all.plannedMinutes).toBe(plan.reduce((minutes, step) => minutes + step.minutes, 0));
          if (billed && cells.length > 0)
            expect(all).toMatchObject({ billedMinutes: billed.minutes, billedMinor: billed.minor });
          for (const keyOf of [
            (cell: (typeof cells)[number]) => cell.stepId,
            (cell: (typeof cells)[number]) => cell.staffId,
            (cell: (typeof cells)[number]) => (cell.stepId ?? 0) % 2,
          ]) {
            const rows = [
              ...summedBy(cells, keyOf as (cell: (typeof cells)[number]) => number | null).values(),
            ];
            for (const column of Object.keys(all) as (keyof typeof all)[])
              expect(rows.reduce((total, row) => total + (row[column] ?? 0), 0)).toBe(all[column] ?? 0);
          }
          // A person's minutes are theirs to within the rounding of their cells.
          for (const [staffId, row] of summedBy(cells, (cell) => cell.staffId)) {
            const own = entries.filter((one) => one.staffId === staffId);
            const minutes = own.reduce((ms, one) => ms + (one.endedAt ?? now) - one.startedAt, 0) / MINUTE;
            const cut = cells.filter((cell) => cell.staffId === staffId).length;
            expect(Math.abs(row.spentMinutes - minutes)).toBeLessThanOrEqual(cut + 0.5);
          }
        },
      ),
    );
  });
});

describe("what an operation usually takes", () => {
  it("is the median, with the middle half from four jobs on (Hyndman and Fan, type 7, worked by hand)", () => {
    expect(usually([])).toBeNull();
    expect(usually([14])).toEqual({ jobs: 1, median: 14, middleHalf: null });
    expect(usually([20, 10, 12])).toEqual({ jobs: 3, median: 12, middleHalf: null });
    expect(usually([10, 30, 20, 40])).toEqual({ jobs: 4, median: 25, middleHalf: { from: 17.5, to: 32.5 } });
  });
});
