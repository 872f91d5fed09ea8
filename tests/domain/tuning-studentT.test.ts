// @ts-expect-error jstat carries no types; only cdf and inv of Student's t are used.
import jstat from "jstat";
import { describe, expect, it } from "vitest";
import { OutOfRange } from "@/lib/domain/refusal";
import { tFor, tFurther } from "@/lib/domain/tuning/studentT";

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
    expect(() => tFor(0, 3)).toThrow("probability is 0, outside");
    expect(() => tFor(1, 3)).toThrow(OutOfRange);
    expect(() => tFor(Number.NaN, 3)).toThrow(OutOfRange);
  });

  // With one degree of freedom it is Cauchy's: 1 - 2 atan(t) / pi. With two: 1 - t / sqrt(2 + t^2) (closed forms).
  it("has its closed forms with one and two degrees of freedom, far out and near the middle", () => {
    for (const t of [1e-6, 1e-3, 0.1, 1, 10, 1e3]) {
      expect(tFurther(t, 1) / (1 - (2 * Math.atan(t)) / Math.PI)).toBeCloseTo(1, 9);
      expect(tFurther(t, 2) / (1 - t / Math.hypot(t, Math.SQRT2))).toBeCloseTo(1, 9);
    }
    expect(tFor(1e-6, 1) / Math.tan((Math.PI / 2) * (1 - 1e-6))).toBeCloseTo(1, 9);
  });
  it("is the normal distribution with a million degrees of freedom: 1.959964 leaves 5 %", () => {
    expect(tFurther(1.959964, 1e6)).toBeCloseTo(0.05, 6);
    expect(tFurther(0.01, 1e6)).toBeCloseTo(0.992_021, 6);
  });
  it("falls from one to nothing, a number everywhere, whatever the degrees of freedom", () => {
    for (const df of [0.5, 0.7, 1, 1.3, 2, 2.9, 4, 9.5, 31, 100, 999.5, 1e4, 1e6]) {
      expect(tFurther(0, df)).toBe(1);
      expect(tFurther(Number.POSITIVE_INFINITY, df)).toBe(0);
      let last = 1;
      for (let t = 1e-4; t < 1e6; t *= 1.3) {
        const now = tFurther(t, df);
        expect(now <= last + 1e-12 && now >= 0, `${t} with ${df}: ${now}, before ${last}`).toBe(true);
        last = now;
      }
    }
  });
});
