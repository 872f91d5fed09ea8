import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { foldedThread, type JetInDrawer, sameThread } from "@/lib/domain/tuning/sameThread";

const THREADS = new Map([
  ["Round main", "M5 x 0.75"],
  ["Hex main", "m5×0,75"],
  ["Long main", "M6 x 0.75"],
  ["Spare", ""],
]);
let next = 0;
const jet = (family: string, size: number, more: Partial<JetInDrawer> = {}): JetInDrawer => ({
  partId: ++next,
  code: `${family[0]}-${size}`,
  family,
  size,
  convention: "bore",
  freeMilli: 2000,
  ...more,
});
const flow = (family: string, size: number, more = {}) => jet(family, size, { convention: "flow", ...more });
const wanted = { family: "Round main", size: 120, convention: "bore" } as const;

describe("jets of another drawer with the same thread", () => {
  // By hand: flow 100 has the area of bore 100, so bore 120 is flow 144 (1.2 squared); flow 145 is bore 120.4, and sigma 0.04 of flow is
  // 0.02 of bore: 1.5 of it is 3 %, 116.9 to 124.1.
  it("are told by the number that flows alike, with how far off it may be, and never as the same number", () => {
    const [first, ...others] = sameThread(
      wanted,
      1000,
      [flow("Hex main", 120), flow("Hex main", 145)],
      THREADS,
    );
    expect(others).toEqual([]);
    expect(first).toMatchObject({ size: 145, across: true });
    expect(first?.equivalent).toBeCloseTo(120.416, 3);
    expect(first?.low).toBeCloseTo(116.857, 3);
    expect(first?.high).toBeCloseTo(124.083, 3);
  });

  it("of one numbering are less unsure, and unsure all the same", () => {
    const [only] = sameThread(wanted, 1000, [jet("Hex main", 120)], THREADS);
    expect(only).toMatchObject({ across: false, equivalent: 120 });
    expect(only?.low).toBeCloseTo(120 * Math.exp(-0.015), 9);
    expect(only?.high).toBeCloseTo(120 * Math.exp(0.015), 9);
  });

  it("are the nearest three that are free in number, of the thread alone and of no drawer without one", () => {
    const jets = [
      jet("Round main", 120),
      jet("Long main", 120),
      jet("Spare", 120),
      jet("Hex main", 125),
      jet("Hex main", 122.5),
      jet("Hex main", 120, { freeMilli: 1000 }),
      jet("Hex main", 117.5),
      jet("Hex main", 115),
      jet("Hex main", 127.5),
    ];
    const sizes = (needed: number) => sameThread(wanted, needed, jets, THREADS).map(({ size }) => size);
    expect(sizes(1000)).toEqual([120, 122.5, 117.5]);
    expect(sizes(2000)).toEqual([122.5, 117.5, 125]);
    expect(sizes(3000)).toEqual([]);
    expect(sameThread({ ...wanted, family: "Spare" }, 1000, jets, THREADS)).toEqual([]);
    expect(sameThread({ ...wanted, family: "Unheard of" }, 1000, jets, THREADS)).toEqual([]);
    // More than a tenth of flow away: 1.05 squared is 1.1025.
    expect(sameThread(wanted, 1000, [jet("Hex main", 126)], THREADS)).toEqual([]);
    expect(sameThread(wanted, 0, [jet("Hex main", 120, { freeMilli: 0 })], THREADS)).toEqual([]);
  });

  it("have their equivalent inside its own ends, and back again the same area, whatever the sizes", () => {
    const sizes = fc.integer({ min: 40, max: 300 });
    const numbering = fc.constantFrom("bore", "flow") as fc.Arbitrary<"bore" | "flow">;
    fc.assert(
      fc.property(sizes, sizes, numbering, numbering, (want, size, own, other) => {
        const asked = { family: "Round main", size: want, convention: own };
        const [found] = sameThread(asked, 1, [jet("Hex main", size, { convention: other })], THREADS);
        if (!found) return;
        expect(found.low).toBeLessThan(found.equivalent);
        expect(found.high).toBeGreaterThan(found.equivalent);
        const area = (n: number, as: string) => (as === "bore" ? (n / 100) ** 2 : n / 100);
        expect(area(found.equivalent, own)).toBeCloseTo(area(size, other), 9);
      }),
    );
  });

  it("compare threads by what is meant", () => {
    expect(foldedThread(" M5 × 0,75 ")).toBe(foldedThread("m5x0.75"));
    expect(foldedThread("  ")).toBe("");
    expect(foldedThread("M5 x 0.8")).not.toBe(foldedThread("M5 x 0.75"));
  });
});
