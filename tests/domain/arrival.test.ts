import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { arrivalOf, type OnTheWay, unclaimed } from "@/lib/domain/stock/arrival";

const TODAY = "2026-11-25";
const line = (pieces: number, dueOn: string | null, jobId: number | null = null): OnTheWay => ({
  openMilli: pieces * 1000,
  dueOn,
  jobId,
});

describe("what is on its way (common practice, no source)", () => {
  it("comes by the last of the lines that are needed, the line due first counting first", () => {
    const coming = [line(1, "2026-12-01"), line(2, "2026-12-04"), line(9, "2027-01-10")];
    expect(arrivalOf(1_000, coming, 3, TODAY)).toEqual({ by: "order", on: "2026-12-01", late: null });
    expect(arrivalOf(2_500, coming, 3, TODAY).on).toBe("2026-12-04");
    expect(arrivalOf(3_500, coming, 3, TODAY).on).toBe("2027-01-10");
  });

  it("falls back on the lead time, over the turn of a year too, where nothing is on its way or not enough", () => {
    expect(arrivalOf(1_000, [], 9, "2026-12-28")).toEqual({ by: "lead time", on: "2027-01-06", late: null });
    expect(arrivalOf(5_000, [line(4, "2026-12-01")], 2, TODAY)).toMatchObject({
      by: "lead time",
      on: "2026-11-27",
    });
    expect(arrivalOf(1_000, [], null, TODAY)).toEqual({ by: "unknown", on: null, late: null });
  });

  it("promises nothing of a line without a day or behind its day, if that line is needed", () => {
    expect(arrivalOf(1_000, [line(1, null)], 2, TODAY)).toEqual({ by: "order", on: null, late: null });
    expect(arrivalOf(1_000, [line(1, "2026-11-24")], 2, TODAY)).toEqual({
      by: "order",
      on: null,
      late: "2026-11-24",
    });
    expect(arrivalOf(1_000, [line(1, TODAY), line(1, null)], 2, TODAY).on).toBe(TODAY);
  });

  it("knows lead times but no day as of no day", () => {
    expect(arrivalOf(1_000, [], 4, null)).toEqual({ by: "lead time", on: null, late: null });
  });

  it("leaves out what jobs wait for: their own lines first, then the shelf's earliest", () => {
    const lines = [line(2, "2026-12-09"), line(1, "2026-12-01"), line(3, "2026-11-30", 7)];
    // Job 7 is short of 4 and has 3 on order; job 8 is short of 1: two of the shelf's three are spoken for.
    const waiting = [
      { jobId: 7, shortMilli: 4_000 },
      { jobId: 8, shortMilli: 1_000 },
    ];
    expect(unclaimed(lines, waiting)).toEqual([line(1, "2026-12-09")]);
    expect(unclaimed(lines, [])).toEqual([line(1, "2026-12-01"), line(2, "2026-12-09")]);
  });

  it("never counts more as free than the shelf has coming, nor less than is left over", () => {
    const lines = fc.array(
      fc.record({
        openMilli: fc.integer({ min: 1, max: 5_000 }),
        dueOn: fc.constantFrom("2026-12-01", "2026-12-05", null),
        jobId: fc.constantFrom(null, 1, 2),
      }),
      { maxLength: 8 },
    );
    const waits = fc.array(fc.record({ jobId: fc.constantFrom(1, 2, 3), shortMilli: fc.nat(5_000) }), {
      maxLength: 5,
    });
    fc.assert(
      fc.property(lines, waits, (coming, waiting) => {
        const sum = (all: readonly { openMilli: number }[]) => all.reduce((n, l) => n + l.openMilli, 0);
        const free = sum(unclaimed(coming, waiting));
        const claims = [1, 2, 3].reduce((n, job) => {
          const short = waiting.filter((w) => w.jobId === job).reduce((m, w) => m + w.shortMilli, 0);
          return n + Math.max(0, short - sum(coming.filter((l) => l.jobId === job)));
        }, 0);
        expect(free).toBe(Math.max(0, sum(coming.filter((l) => l.jobId === null)) - claims));
      }),
    );
  });
});
