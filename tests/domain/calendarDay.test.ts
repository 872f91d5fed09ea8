import fc from "fast-check";
import { Temporal } from "temporal-polyfill";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { calendarDay, dayAfter } from "@/lib/domain/schedule/calendarDay";

describe("a calendar day, against Temporal", () => {
  it("is the same so many days on, over leap years and centuries", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000 }),
        fc.integer({ min: -50_000, max: 50_000 }),
        (at, days) => {
          const day = Temporal.PlainDate.from("1880-01-01").add({ days: at });
          expect(dayAfter(day.toString(), days)).toBe(day.add({ days }).toString());
        },
      ),
    );
  });

  it("is one where Temporal has one, and none elsewhere", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 2400 }),
        fc.integer({ min: 0, max: 14 }),
        fc.integer({ min: 0, max: 33 }),
        (year, month, day) => {
          const theirs = () => {
            try {
              return Temporal.PlainDate.from({ year, month, day }, { overflow: "reject" }).toString();
            } catch {
              return null;
            }
          };
          expect(calendarDay(year, month, day)).toBe(theirs());
        },
      ),
    );
  });

  it("is refused where it is none", () => {
    for (const day of ["", "2026-02-30", "2026-13-01", "26-1-1", "2026-11-25T00:00"])
      expect(() => dayAfter(day), day).toThrow(Refusal);
  });
});
