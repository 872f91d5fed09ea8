import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type WearAhead, wearAhead } from "@/lib/domain/sheets/wearAhead";

const read = (km: number, value: number) => ({ km, value });
const ahead = (...args: Parameters<typeof wearAhead>): WearAhead => {
  const found = wearAhead(...args);
  if (!found.known) throw new Error(found.why);
  return found;
};

describe("wear over distance", () => {
  it("is not projected from fewer than three readings, without a limit, or away from it", () => {
    expect(wearAhead([read(0, 2.6), read(9000, 2.61)], { high: 2.66 }, 0.01)).toEqual({
      known: false,
      why: "2 readings with a distance of the part that is fitted now: three tell a line.",
    });
    expect(wearAhead([read(0, 2.6), read(0, 2.61), read(9000, 2.62)], { high: 2.66 }, 0.01).known).toBe(
      false,
    );
    expect(wearAhead([], {}, 0.01)).toMatchObject({ known: false, why: /no limit/ });
    const still = [read(0, 2.6), read(9000, 2.6), read(18_000, 2.6)];
    expect(wearAhead(still, { high: 2.66 }, 0.01)).toMatchObject({ known: false, why: /do not go towards/ });
  });

  it("meets the limit where a line through exact readings does, with no band (identity)", () => {
    const needleJet = [read(10_000, 2.6), read(20_000, 2.61), read(30_000, 2.62), read(40_000, 2.63)];
    const found = ahead(needleJet, { high: 2.66 }, 0.01);
    expect(found.readings).toBe(4);
    expect(found.per1000Km).toBeCloseTo(0.001, 9);
    for (const km of [found.km, found.earliest, found.latest]) expect(km).toBeCloseTo(70_000, -1);
    const needle = ahead([read(0, 2.5), read(10_000, 2.48), read(20_000, 2.46)], { low: 2.4 }, 0.01);
    expect(needle.km).toBeCloseTo(50_000, -1);
  });

  it("has the prediction interval of a single new reading (worked by hand: 4 readings, t of 2 degrees, 20 % = 1.886)", () => {
    // x 0, 1, 2, 3 thousand; y 1, 3, 2, 4: b 0.8 per thousand, residual variance 0.9.
    const found = ahead([read(0, 1), read(1000, 3), read(2000, 2), read(3000, 4)], { high: 9 }, 1);
    const at = found.at(1500);
    expect(at.value).toBeCloseTo(2.5, 9);
    expect(at.high - at.value).toBeCloseTo(1.8856 * Math.sqrt(0.9 * 1.25), 3);
    expect(found.at(5000).high - found.at(5000).value).toBeCloseTo(
      1.8856 * Math.sqrt(0.9 * (1 + 0.25 + 3.5 ** 2 / 5)),
      3,
    );
    expect(found.earliest ?? 0).toBeLessThan(found.km ?? 0);
    expect(found.latest ?? Number.POSITIVE_INFINITY).toBeGreaterThan(found.km ?? 0);
  });

  it("begins anew with a part that was exchanged, and not at what a gauge cannot tell", () => {
    const old = [read(0, 2.6), read(10_000, 2.63), read(20_000, 2.66)];
    expect(wearAhead([...old, read(21_000, 2.6)], { high: 2.66 }, 0.01)).toMatchObject({
      known: false,
      why: /^1 reading /,
    });
    const shaky = [read(0, 2.6), read(10_000, 2.62), read(20_000, 2.61), read(30_000, 2.63)];
    expect(ahead(shaky, { high: 2.66 }, 0.01).readings).toBe(4);
  });

  it("keeps the line inside its band and the band's ends on both sides of it, whatever was read", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ km: fc.nat(90_000), value: fc.double({ min: 2, max: 3, noNaN: true }) }), {
          minLength: 3,
          maxLength: 9,
        }),
        (readings) => {
          const found = wearAhead(readings, { high: 3.5 }, 0.001);
          if (!found.known) return;
          const { low, value, high } = found.at(100_000);
          expect(low).toBeLessThanOrEqual(value);
          expect(high).toBeGreaterThanOrEqual(value);
          if (found.km !== null)
            expect(found.earliest ?? Number.POSITIVE_INFINITY).toBeLessThanOrEqual(found.km + 1);
          if (found.km !== null && found.latest !== null)
            expect(found.latest).toBeGreaterThanOrEqual(found.km - 1);
        },
      ),
    );
  });
});
