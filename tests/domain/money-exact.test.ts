import { Decimal as Base } from "decimal.js";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { roundToSum } from "@/lib/domain/money/allocate";
import { exactly, nearest, product, quotient, sumOf } from "@/lib/domain/money/exact";
import { majorText, pointed } from "@/lib/domain/money/major";
import { roundHalfAway } from "@/lib/domain/money/round";
import { amountOf, e4OfMinor, priceText } from "@/lib/domain/money/scale";
import { Refusal } from "@/lib/domain/refusal";

/** Another's decimal arithmetic, with digits enough that nothing here is cut off. */
const Decimal = Base.clone({ precision: 400, rounding: Base.ROUND_HALF_UP });

const minor = fc.integer({ min: -1e9, max: 1e9 });
const factor = fc.oneof(
  fc.integer({ min: -1e6, max: 1e6 }),
  fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  fc.double({ min: -1e-6, max: 1e-6, noNaN: true }),
);

describe("exact arithmetic, against decimal.js", () => {
  it("rounds a product or a quotient of any numbers alike, halves away from zero", () => {
    fc.assert(
      fc.property(minor, factor, factor, (amount, times, by) => {
        const theirs = new Decimal(amount).mul(times);
        expect(roundHalfAway(product(amount, times))).toBe(Number(theirs.toFixed(0)) || 0);
        if (by === 0 || theirs.div(by).abs().gt(1e15)) return;
        expect(roundHalfAway(quotient(product(amount, times), by))).toBe(
          Number(theirs.div(by).toFixed(0)) || 0,
        );
      }),
    );
  });

  it("adds up numbers without losing any of them", () => {
    fc.assert(
      fc.property(fc.array(factor, { maxLength: 6 }), (values) => {
        const theirs = values.reduce((sum, one) => sum.add(one), new Decimal(0));
        const { over, under } = sumOf(values);
        expect(new Decimal(String(over)).div(String(under)).eq(theirs)).toBe(true);
      }),
    );
  });

  it("prices, turns and writes amounts alike in currencies of 0, 2 and 3 digits", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -1e9, max: 1e9 }),
        fc.integer({ min: -1e6, max: 1e6 }),
        fc.constantFrom(["JPY", 0] as const, ["AUD", 2] as const, ["KWD", 3] as const),
        (price, quantity, [currency, digits]) => {
          const per = 10 ** digits;
          const amount = new Decimal(price).mul(quantity).mul(per).div(1e7).toFixed(0);
          expect(amountOf(price, quantity, currency)).toBe(Number(amount) || 0);
          expect(e4OfMinor(price, currency)).toBe(Number(new Decimal(price).mul(1e4).div(per).toFixed(0)));
          expect(majorText(price, currency)).toBe(new Decimal(price).div(per).toFixed(digits));
          const major = new Decimal(price).div(1e4);
          expect(priceText(price, currency)).toBe(major.toFixed(Math.max(digits, major.decimalPlaces())));
        },
      ),
    );
  });

  it("takes fractions of other denominators into a sum by largest remainder", () => {
    const thirds = [1, 1, 1].map((n) => quotient(n, 3));
    expect(roundToSum(thirds, 1, 1)).toEqual([1, 0, 0]);
    expect(roundToSum([quotient(7, 2), 3.5], "0.5", 14)).toEqual([7, 7]);
  });
});

describe("an exact value", () => {
  it("is read from any way a number is written, and from another library's decimal", () => {
    for (const [value, text] of [
      [1e21, "1000000000000000000000.00"],
      ["-2.675", "-2.68"],
      [".5", "0.50"],
      [5e-7, "0.00"],
      [new Decimal("12.345"), "12.35"],
      [-3n, "-3.00"],
    ] as const)
      expect(pointed(nearest(product(value, 100)), 2), String(value)).toBe(text);
  });

  it("is refused where it is no finite number, and nothing is divided by 0", () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, "", "-", "1e999999999", "12,5"])
      expect(() => exactly(value), String(value)).toThrow(Refusal);
    expect(() => quotient(1, 0)).toThrow(Refusal);
  });
});
