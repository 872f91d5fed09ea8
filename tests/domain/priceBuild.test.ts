import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { priceBuild } from "@/app/s/[shop]/quotes/[id]/priceBuild";

const kinds = ["labour", "part", "fixed", "outside", "sundries"] as const;
const lines = fc.array(
  fc.record({
    key: fc.constantFrom("work", "hand-1", "x"),
    kind: fc.constantFrom(...kinds),
    shownMinor: fc.nat(50_000),
  }),
  { maxLength: 8 },
);

describe("the price as one bar", () => {
  it("has two rows of one length that hold every amount once, with tax inside or on top", () => {
    fc.assert(
      fc.property(lines, fc.boolean(), fc.nat(100), fc.nat(100), (charged, pricesIncludeTax, off, cost) => {
        const whole = charged.reduce((sum, l) => sum + l.shownMinor, 0);
        const taken = Math.round((whole * off) / 100);
        const left = whole - taken;
        const taxMinor = Math.round(pricesIncludeTax ? left / 11 : left / 10);
        const netMinor = pricesIncludeTax ? left - taxMinor : left;
        const discount = { key: "discount", kind: "discount" as const, shownMinor: -taken };
        const costMinor = Math.round((netMinor * cost) / 100);
        const build = priceBuild(
          { pricesIncludeTax, taxMinor, netMinor, lines: [...charged, discount] },
          costMinor,
        );
        expect(build === null).toBe(whole === 0);
        const long = (build ?? []).map(({ pieces }) => pieces.reduce((sum, p) => sum + p.minor, 0));
        expect(new Set(long).size).toBeLessThanOrEqual(1);
        expect(long[0] ?? 0).toBe(whole === 0 ? 0 : whole + (pricesIncludeTax ? 0 : taxMinor));
      }),
    );
  });

  it("tells cost and margin only where the cost is told, and not where it is above the price", () => {
    const price = {
      pricesIncludeTax: true,
      taxMinor: 100,
      netMinor: 1000,
      lines: [{ key: "work", kind: "labour" as const, shownMinor: 1100 }],
    };
    const labels = (cost: number | null) => priceBuild(price, cost)?.[1]?.pieces.map((p) => p.label);
    expect(labels(null)).toEqual(["Without tax", "Tax"]);
    expect(labels(400)).toEqual(["Cost", "Margin", "Tax"]);
    expect(labels(1001)).toEqual(["Without tax", "Tax"]);
  });
});
