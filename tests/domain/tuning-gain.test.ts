// @ts-expect-error jstat carries no types; only cdf and inv of Student's t are used.
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { OutOfRange } from "@/lib/domain/refusal";
import { comparePulls } from "@/lib/domain/tuning/dyno";
import { gainTest } from "@/lib/domain/tuning/gainTest";
import { tFor, tFurther } from "@/lib/domain/tuning/studentT";
import { seeded } from "../support/seeded";

describe("Student's t", () => {
  it("has the two-sided 95 % values of the printed tables (from memory): 12.706, 4.303, 2.776, 2.228, 2.101", () => {
    for (const [df, t] of [
      [1, 12.706],
      [2, 4.303],
      [4, 2.776],
      [10, 2.228],
      [18, 2.101],
    ] as const)
      expect(tFor(0.05, df)).toBeCloseTo(t, 3);
  });
  it("agrees with jstat 1.9.6 over degrees of freedom and tails", () => {
    for (const df of [1, 1.5, 2, 3, 5, 8, 13, 18, 40, 200])
      for (const t of [0, 0.3, 1, 2, 3.5, 8, 20]) {
        const other = 2 * (1 - jstat.studentt.cdf(t, df));
        expect(Math.abs(tFurther(t, df) - other)).toBeLessThan(1e-7);
        expect(tFurther(-t, df)).toBeCloseTo(tFurther(t, df), 12);
      }
    for (const df of [1, 2, 7, 18])
      for (const p of [0.2, 0.05, 0.01])
        expect(tFor(p, df)).toBeCloseTo(jstat.studentt.inv(1 - p / 2, df), 6);
  });
  it("refuses degrees of freedom and probabilities that cannot be", () => {
    expect(() => tFurther(1, 0)).toThrow(OutOfRange);
    expect(() => tFor(0, 3)).toThrow(OutOfRange);
    expect(() => tFor(Number.NaN, 3)).toThrow(OutOfRange);
  });
});

describe("a gain on the dyno", () => {
  const TRIALS = 4000;
  const draw = (random: () => number, n: number, mean: number, spread: number) =>
    Array.from({ length: n }, () => mean * (1 + spread * random()));
  const alarms = (n: number, before: number, after: number) => {
    const random = seeded(1000 * n + Math.round(1e5 * before + 1e3 * after));
    let found = 0;
    for (let i = 0; i < TRIALS; i++)
      if (gainTest(draw(random, n, 50, before), draw(random, n, 50, after))?.beyondNoise) found++;
    return (100 * found) / TRIALS;
  };
  it("is called beyond noise at most 5 times in 100 where nothing changed, with 2+2 to 10+10 pulls", () => {
    for (const [before, after] of [
      [0.01, 0.01],
      [0.01, 0.03],
    ] as const)
      for (const n of [2, 3, 4, 5, 7, 10]) {
        const found = alarms(n, before, after);
        if (process.env.TABLES)
          console.log(`| ${n}+${n} | ${100 * before} % / ${100 * after} % | ${found.toFixed(1)} % |`);
        expect(found, `${n}+${n}, spread ${before} and ${after}`).toBeLessThanOrEqual(5);
      }
  });
  it("has an interval that holds the truth about 95 times in 100", () => {
    const random = seeded(5);
    let held = 0;
    for (let i = 0; i < TRIALS; i++) {
      const test = gainTest(draw(random, 5, 50, 0.01), draw(random, 5, 53, 0.01));
      if (test && test.low <= 0.06 && test.high >= 0.06) held++;
    }
    expect((100 * held) / TRIALS).toBeGreaterThanOrEqual(94);
  });
  it("says how many more pulls would settle it, and that they do where the spread stays", () => {
    // Spread 1 %, gain 1.4 %: two pulls a side cannot tell.
    const pulls = (n: number, mean: number) =>
      Array.from({ length: n }, (_, i) => mean * (i % 2 ? 1.01 : 0.99));
    const two = gainTest(pulls(2, 50), pulls(2, 50.7));
    expect(two?.beyondNoise).toBe(false);
    const more = two?.morePulls ?? 0;
    expect(more).toBeGreaterThan(2);
    expect(gainTest(pulls(2 + more + 1, 50), pulls(2 + more + 1, 50.7))?.beyondNoise).toBe(true);
    expect(gainTest(pulls(2, 50), pulls(2, 50.001))?.morePulls).toBeNull();
  });
  it("takes pulls without torque, or a file of nothing, as a fault of the file", () => {
    const pull = (nm: number) => ({ rpm: [3000, 4000, 5000], torqueNm: [nm, nm, nm] });
    expect(() => comparePulls([pull(0)], [pull(40)])).toThrow(OutOfRange);
    expect(() => comparePulls([pull(-5)], [pull(40)])).toThrow(/torque/);
  });
});
