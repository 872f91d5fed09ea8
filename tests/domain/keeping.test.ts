import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { countryKeeping, keepingOf, keptNoLonger, keptUntil } from "@/lib/domain/invoices/keeping";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { FULL } from "../support/size";

const day = fc.integer({ min: 0, max: 20_000 }).map((days) => dayAfter("2000-01-01", days));
const country = fc.constantFrom("AU", "NO", "NZ", "GB");

describe("how long a document is kept", () => {
  it("is five years after the accounting year in Norway (bokføringsloven § 13) and Australia (ITAA 1936 s 262A)", () => {
    expect(keptUntil("2026-01-01", "NO", 5)).toBe("2031-12-31");
    expect(keptUntil("2026-12-31", "NO", 5)).toBe("2031-12-31");
    expect(keptUntil("2026-06-30", "AU", 5)).toBe("2031-06-30");
    expect(keptUntil("2026-07-01", "AU", 5)).toBe("2032-06-30");
    expect([countryKeeping("NO").years, countryKeeping("AU").years]).toEqual([5, 5]);
  });

  it("is ten years where no rule is known, and what the shop says in its place", () => {
    expect(keepingOf("FR", null).years).toBe(10);
    expect(keepingOf("FR", 7).years).toBe(7);
  });

  it("is never shorter than a rule that is known, whatever the shop says", () => {
    expect([null, 1, 5, 6, 12].map((asked) => keepingOf("NO", asked).years)).toEqual([5, 5, 5, 6, 12]);
  });

  it("is over for a day exactly where the newest day that is over says so", () => {
    fc.assert(
      fc.property(day, day, country, fc.integer({ min: 1, max: 30 }), (of, today, where, years) => {
        expect(of <= keptNoLonger(today, where, years)).toBe(keptUntil(of, where, years) < today);
      }),
      { numRuns: FULL ? 5_000 : 300 },
    );
  });
});
