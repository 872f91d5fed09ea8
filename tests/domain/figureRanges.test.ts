import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { sharesOf } from "@/lib/domain/invoices/shares";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { presentOn } from "@/lib/domain/schedule/present";
import { daysBefore, daysIn, monthsIn, RANGES, rangeAround } from "@/lib/domain/schedule/ranges";
import { FiguresQuery, rangesOf } from "@/lib/schemas/figures";
import { FULL } from "../support/size";

describe("ranges of figures", () => {
  it("take the financial year of the country: July to June in Australia, the calendar year in Norway", () => {
    // Income Tax Assessment Act 1997 s 4-10; regnskapsloven § 1-7; from memory.
    expect(rangeAround("year", "2027-06-30", "AU")).toEqual({
      range: { from: "2026-07-01", to: "2027-06-30" },
      before: { from: "2025-07-01", to: "2026-06-30" },
    });
    expect(rangeAround("year", "2026-12-31", "NO").range).toEqual({ from: "2026-01-01", to: "2026-12-31" });
    expect(rangeAround("quarter", "2026-09-30", "AU").range.from).toBe("2026-07-01");
  });

  it("hold what still runs against as many days of the one before, and a whole one against the whole one", () => {
    expect(rangeAround("month", "2026-11-12", "AU")).toEqual({
      range: { from: "2026-11-01", to: "2026-11-12" },
      before: { from: "2026-10-01", to: "2026-10-12" },
    });
    expect(rangeAround("month", "2027-03-30", "NO").before).toEqual({ from: "2027-02-01", to: "2027-02-28" });
  });

  it("always meet and never overlap", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 6_000 }),
        fc.constantFrom(...RANGES),
        fc.constantFrom("AU", "NO", "NZ", "XX"),
        (at, name, country) => {
          const day = dayAfter("2020-01-01", at);
          const { range, before } = rangeAround(name, day, country);
          expect(range.from <= day && range.to === day).toBe(true);
          expect(before.to < range.from).toBe(true);
          expect(daysIn(before)).toBeLessThanOrEqual(Math.max(daysIn(range), 366));
          expect(monthsIn(range)[0]).toBe(range.from.slice(0, 7));
          expect(monthsIn(range).at(-1)).toBe(day.slice(0, 7));
          const own = daysBefore(range);
          expect([dayAfter(own.to), daysIn(own)]).toEqual([range.from, daysIn(range)]);
        },
      ),
      { numRuns: FULL ? 1_000 : 100 },
    );
  });

  it("of one's own that are turned round, too long or missing are the year", () => {
    const asked = (query: object) => rangesOf(FiguresQuery.parse(query), "2026-11-29", "NO").range;
    const year = { from: "2026-01-01", to: "2026-11-29" };
    expect(asked({ range: "own", from: "2026-05-01", to: "2026-04-01" })).toEqual(year);
    expect(asked({ range: "own", from: "1990-05-01", to: "2026-04-01" })).toEqual(year);
    expect(asked({ range: "own", from: "x" })).toEqual(year);
    expect(asked({ range: "own", from: "2026-05-01", to: "2026-05-01" })).toEqual({
      from: "2026-05-01",
      to: "2026-05-01",
    });
  });
});

describe("hours present", () => {
  it("are the shift's minutes on working days, and nothing on days off", () => {
    // 2026-11-23 is a Monday.
    const days = ["2026-11-22", "2026-11-23", "2026-11-24", "2026-11-25"];
    const hours = {
      1: [
        { from: "08:00", to: "12:00" },
        { from: "12:30", to: "17:00" },
      ],
      2: [{ from: "22:00", to: "24:00" }],
    };
    expect(presentOn(days, hours, [])).toEqual([0, 510, 120, 0]);
    expect(presentOn(days, hours, [{ fromDay: "2026-11-23", toDay: "2026-11-23" }])).toEqual([0, 0, 120, 0]);
  });
});

describe("shares of a document", () => {
  const line = fc.record({
    kind: fc.constantFrom("labour", "part", "fixed", "sundries", "discount"),
    unit: fc.constantFrom("h", "each"),
    job: fc.option(fc.constantFrom("41", "42"), { nil: undefined }),
    quantityMilli: fc.integer({ min: -90_000, max: 90_000 }),
    netMinor: fc.integer({ min: -1_000_000, max: 1_000_000 }),
  });
  const docOf = (lines: readonly object[], basis = "fixed") =>
    ({ issuedOn: "2026-11-25", basis, jobs: [{ number: "41" }], lines }) as unknown as PrintedInvoice;

  it("add up to its net, each job and kind once, and mirror in a credit note", () => {
    fc.assert(
      fc.property(fc.array(line, { maxLength: 20 }), (lines) => {
        const shares = sharesOf(docOf(lines));
        const net = lines.reduce((sum, one) => sum + one.netMinor, 0);
        expect(shares.reduce((sum, one) => sum + one.netMinor, 0)).toBe(net);
        expect(new Set(shares.map((one) => `${one.job} ${one.kind}`)).size).toBe(shares.length);
        const back = sharesOf(
          docOf(
            lines.map((one) => ({
              ...one,
              quantityMilli: 0 - one.quantityMilli,
              netMinor: 0 - one.netMinor,
            })),
          ),
        );
        expect(
          back.map(
            (one) =>
              one.netMinor + (shares.find((s) => s.job === one.job && s.kind === one.kind)?.netMinor ?? NaN),
          ),
        ).toEqual(back.map(() => 0));
        expect(
          back.map(
            (one) =>
              one.minutes + (shares.find((s) => s.job === one.job && s.kind === one.kind)?.minutes ?? NaN),
          ),
        ).toEqual(back.map(() => 0));
      }),
      { numRuns: FULL ? 1_000 : 100 },
    );
  });

  it("of a counter sale are all of the counter", () => {
    const lines = [{ kind: "part", unit: "each", quantityMilli: 1000, netMinor: 250 }];
    const sale = { ...docOf(lines, "counter"), jobs: [] } as unknown as PrintedInvoice;
    expect(sharesOf(sale)).toEqual([
      { issuedOn: "2026-11-25", job: "", kind: "counter", netMinor: 250, minutes: 0 },
    ]);
  });
});
