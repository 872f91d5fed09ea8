import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { balance, COMMON_BAND_KPA, VACUUM_UNITS, vacuumIn } from "@/lib/domain/procedures/vacuum";

const rack = (...values: number[]) => values.map((value, at) => ({ carburettor: at + 1, value }));

describe("vacuum balance", () => {
  it("is the difference and the ratio of the least to the greatest, by plain arithmetic", () => {
    // 24.0 and 21.6 kPa: 2.4 apart, 21.6 / 24.0 = 0.9.
    const twin = balance(rack(24, 21.6), 2.7);
    expect(twin.spread).toBeCloseTo(2.4, 12);
    expect(twin.ratio).toBeCloseTo(0.9, 12);
    expect(twin.inBand).toBe(true);
    expect(twin.next).toBeNull();
    expect(twin.readings.map((one) => [one.carburettor, Number(one.below.toFixed(9)), one.ratio])).toEqual([
      [1, 0, 1],
      [2, 2.4, 0.9],
    ]);
    expect(balance(rack(0.3, 0.2), 0.1).inBand).toBe(true);
    expect(balance(rack(0, 0), 1)).toMatchObject({ ratio: 1, spread: 0, inBand: true });
  });

  it("names the screw of a twin and the more closed side: the one with the greater vacuum", () => {
    expect(balance(rack(20, 26), 2.7).next).toEqual({
      screw: "A",
      sides: [[1], [2]],
      difference: 6,
      greater: [2],
    });
  });

  it("sets neighbours on a four before pair against pair", () => {
    // 1 and 2 differ by 6, 3 and 4 by 4, the pairs' means by 1: A first.
    expect(balance(rack(20, 26, 22, 26), 2).next).toMatchObject({ screw: "A", difference: 6, greater: [2] });
    expect(balance(rack(23, 23, 22, 26), 2).next).toMatchObject({ screw: "B", difference: 4, greater: [4] });
    expect(balance(rack(20, 20, 24, 24), 2).next).toMatchObject({
      screw: "C",
      sides: [
        [1, 2],
        [3, 4],
      ],
      difference: 4,
      greater: [3, 4],
    });
    expect(balance(rack(20, 20, 24), 2).next).toMatchObject({ screw: "B", sides: [[3], [2]], greater: [3] });
  });

  it("always has a next screw while it is out of its band, and none inside", () => {
    const value = fc.double({ min: 0, max: 80, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(value, { minLength: 2, maxLength: 4 }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (values, band) => {
          const found = balance(rack(...values), band);
          expect(found.next === null).toBe(found.inBand);
          expect(found.ratio).toBeLessThanOrEqual(1);
        },
      ),
    );
  });

  it("comes level by following it: each screw that is named, turned until its sides agree, ends in the band", () => {
    const value = fc.double({ min: 5, max: 60, noNaN: true });
    fc.assert(
      fc.property(fc.array(value, { minLength: 4, maxLength: 4 }), (values) => {
        let now = [...values];
        for (let turns = 0; turns < 3; turns++) {
          const { next } = balance(rack(...now), COMMON_BAND_KPA);
          if (!next) break;
          const { sides, difference, greater } = next;
          const less = sides.find((side) => side !== greater) ?? [];
          now = now.map((was, at) =>
            greater.includes(at + 1)
              ? was - difference / 2
              : less.includes(at + 1)
                ? was + difference / 2
                : was,
          );
        }
        expect(balance(rack(...now), COMMON_BAND_KPA).inBand).toBe(true);
      }),
    );
  });

  it("has one ratio in every unit, and mercury as NIST SP 811 has it", () => {
    // NIST SP 811, appendix B.8: 1 mmHg is 133.3224 Pa.
    expect(vacuumIn(1, "mmHg", "hPa")).toBeCloseTo(1.333224, 6);
    expect(vacuumIn(2, "cmHg", "kPa")).toBeCloseTo(2.666448, 5);
    const kpa = balance(rack(24, 21.6), 2.7).ratio;
    for (const unit of VACUUM_UNITS) {
      const values = [24, 21.6].map((value) => vacuumIn(value, "kPa", unit));
      expect(balance(rack(...values), 1).ratio).toBeCloseTo(kpa, 9);
    }
  });
});
