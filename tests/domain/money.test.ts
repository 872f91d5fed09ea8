import { dinero, halfAwayFromZero, allocate as theirAllocate, toSnapshot, transformScale } from "dinero.js";
import * as theirCurrencies from "dinero.js/currencies";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { allocate, roundToSum } from "../../lib/domain/money/allocate";
import { add, money, multiply, negate } from "../../lib/domain/money/arithmetic";
import { cashRounding } from "../../lib/domain/money/cash";
import { CURRENCIES, minorDigits } from "../../lib/domain/money/currency";
import { formatMoney } from "../../lib/domain/money/format";
import { majorText } from "../../lib/domain/money/major";
import { parseMoney } from "../../lib/domain/money/parse";
import { basisPoints, percent, roundHalfAway } from "../../lib/domain/money/round";
import { amountOf, e4OfMinor, priceText } from "../../lib/domain/money/scale";
import { Refusal } from "../../lib/domain/refusal";

describe("currencies", () => {
  it("has the minor digits of ISO 4217, as dinero.js 2.0.2 lists them", () => {
    const theirs = theirCurrencies as Readonly<Record<string, { code: string; exponent: number }>>;
    const both = CURRENCIES.filter((code) => theirs[code]);
    expect(both.length).toBeGreaterThan(50);
    for (const code of both) expect([code, minorDigits(code)]).toEqual([code, theirs[code]?.exponent]);
  });

  it("knows currencies of no, two and three digits and refuses others", () => {
    expect(["JPY", "AUD", "KWD"].map(minorDigits)).toEqual([0, 2, 3]);
    expect(() => minorDigits("XXZ")).toThrow(Refusal);
    expect(() => minorDigits("toString")).toThrow(Refusal);
  });
});

describe("rounding", () => {
  it("takes halves away from zero, so that credit mirrors debit", () => {
    expect([0.5, 1.5, 2.5, -0.5, -1.5, -100.5, 0.49999].map(roundHalfAway)).toEqual([
      1, 2, 3, -1, -2, -101, 0,
    ]);
    expect(roundHalfAway("-100.5") / 100).toBe(-1.01); // -1.005 -> -1.01
    expect(Object.is(roundHalfAway(-0.2), 0)).toBe(true);
  });

  it("agrees with dinero.js 2.0.2 halfAwayFromZero", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), (amount) => {
        const theirs = toSnapshot(
          transformScale(dinero({ amount, currency: theirCurrencies.USD, scale: 4 }), 2, halfAwayFromZero),
        ).amount;
        expect(roundHalfAway(`${amount}e-2`)).toBe(theirs || 0);
      }),
    );
  });

  it("refuses what cannot be kept to the cent", () => {
    expect(() => roundHalfAway("1e17")).toThrow("too large");
    expect(() => roundHalfAway(Number.NaN)).toThrow(Refusal);
    expect(() => money(0.5, "AUD")).toThrow("no whole number");
    expect(() => add(money(1, "AUD"), money(1, "NZD"))).toThrow("AUD and NZD");
  });

  it("adds, multiplies, negates and takes shares", () => {
    expect(add(money(110, "EUR"), money(-10, "EUR"))).toEqual({ minor: 100, currency: "EUR" });
    expect(multiply(money(1005, "EUR"), "0.1").minor).toBe(101);
    expect(negate(money(0, "EUR")).minor).toBe(0);
    expect([percent(5025, 1000), percent(-1005, 1000), basisPoints(1, 3)]).toEqual([503, -101, 3333]);
    expect(() => basisPoints(1, 0)).toThrow(Refusal);
  });

  it("moves between ten-thousandths and minor units of any currency", () => {
    expect(amountOf(12_345, 2500, "AUD")).toBe(309); // 1.2345 x 2.5 = 3.08625
    expect(amountOf(15_000, 1000, "JPY")).toBe(2);
    expect(amountOf(15_005, 1000, "KWD")).toBe(1501);
    expect([e4OfMinor(1234, "AUD"), e4OfMinor(12, "JPY")]).toEqual([123_400, 120_000]);
    expect([majorText(-1230, "AUD"), majorText(5, "KWD"), majorText(7, "JPY")]).toEqual([
      "-12.30",
      "0.005",
      "7",
    ]);
    expect([priceText(125, "AUD"), priceText(125_000, "AUD")]).toEqual(["0.0125", "12.50"]);
  });
});

describe("splitting an amount", () => {
  it("splits 100.00 over three as dinero.js does: 33.34 33.33 33.33", () => {
    const theirs = theirAllocate(dinero({ amount: 10_000, currency: theirCurrencies.AUD }), [1, 1, 1]);
    expect(allocate(10_000, [1, 1, 1])).toEqual(theirs.map((d) => toSnapshot(d).amount));
    expect(allocate(10_000, [1, 1, 1])).toEqual([3334, 3333, 3333]);
    expect(allocate(1, [1, 1])).toEqual([1, 0]);
  });

  it("gives equal shares what dinero.js gives, for debit and credit", () => {
    fc.assert(
      fc.property(fc.integer({ min: -1e7, max: 1e7 }), fc.integer({ min: 1, max: 12 }), (amount, n) => {
        const weights = new Array<number>(n).fill(1);
        const theirs = theirAllocate(dinero({ amount, currency: theirCurrencies.AUD }), weights);
        expect(allocate(amount, weights)).toEqual(theirs.map((d) => toSnapshot(d).amount || 0));
      }),
    );
  });

  const weightsOf = fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 20 });
  it("is the method of largest remainder in whole-number arithmetic, loses no cent and mirrors", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), weightsOf, (amount, weights) => {
        fc.pre(weights.some((w) => w > 0));
        const whole = BigInt(weights.reduce((a, b) => a + b));
        const shares = weights.map((w, at) => {
          const numerator = BigInt(amount) * BigInt(w);
          return { at, numerator, floor: numerator / whole, rest: numerator % whole };
        });
        const left = BigInt(amount) - shares.reduce((a, s) => a + s.floor, 0n);
        const order = [...shares].sort(
          (a, b) => Number(b.rest - a.rest) || Number(b.numerator - a.numerator) || a.at - b.at,
        );
        const extra = new Set(order.slice(0, Number(left)).map((s) => s.at));
        const mine = allocate(amount, weights);
        expect(mine).toEqual(shares.map((s) => Number(s.floor) + (extra.has(s.at) ? 1 : 0)));
        expect(mine.reduce((a, b) => a + b)).toBe(amount);
        expect(allocate(0 - amount, weights)).toEqual(mine.map((m) => 0 - m));
      }),
    );
  });

  it("refuses shares that cannot be", () => {
    expect(() => allocate(100, [])).toThrow(Refusal);
    expect(() => allocate(100, [0, 0])).toThrow(Refusal);
    expect(() => allocate(100, [2, -1])).toThrow(Refusal);
    expect(() => roundToSum([10, 10], 1, 40)).toThrow("do not add up");
  });
});

describe("cash rounding", () => {
  // 5 cents: ACCC guidance on rounding, from memory; one krone: Norges Bank, from memory.
  it.each([
    [982, 5, 980],
    [983, 5, 985],
    [987, 5, 985],
    [988, 5, 990],
    [-983, 5, -985],
    [1234, 10, 1230],
    [12_349, 100, 12_300],
    [12_350, 100, 12_400],
    [777, 1, 777],
  ])("rounds %i to the coin %i as %i", (due, coin, payable) => {
    expect(cashRounding(due, coin)).toEqual({ payableMinor: payable, roundingMinor: payable - due });
  });

  it("refuses a coin that is none", () => {
    expect(() => cashRounding(100, 0)).toThrow(Refusal);
    expect(() => cashRounding(100, 2.5)).toThrow(Refusal);
  });
});

const plain = (text: string) => text.replace(/[\u00a0\u202f]/gu, " ").replace("−", "-");

describe("amounts as people write them", () => {
  it("shows the digits of ISO 4217 in the locale's way", () => {
    expect(formatMoney(123_450, "AUD", "en-AU")).toBe("$1,234.50");
    expect(plain(formatMoney(-123_450, "NOK", "nb-NO"))).toMatch(/^-1 234,50 kr$|^-kr 1 234,50$/u);
    expect(plain(formatMoney(5, "EUR", "de-DE"))).toBe("0,05 €");
    expect(formatMoney(1234, "JPY", "en-US")).toBe("¥1,234");
    expect(plain(formatMoney(1234, "KWD", "en-US"))).toBe("KWD 1.234");
    expect(formatMoney(-0, "AUD", "en-AU")).toBe("$0.00");
  });

  it("shows amounts beyond what a float could hold to the cent", () => {
    expect(formatMoney(9_007_199_254_740_991, "AUD", "en-AU")).toBe("$90,071,992,547,409.91");
  });

  it("names a locale or currency that is none", () => {
    expect(() => formatMoney(1, "AUD", "not a locale")).toThrow(Refusal);
    expect(() => formatMoney(1, "ZZZ", "en-AU")).toThrow(Refusal);
  });

  it.each([
    ["1 234,50", "NOK", "nb-NO", 123_450],
    ["1,234.50", "AUD", "en-AU", 123_450],
    ["1234.5", "AUD", "en-AU", 123_450],
    ["1234.5", "NOK", "nb-NO", 123_450],
    ["1.234,50", "EUR", "de-DE", 123_450],
    ["1.234", "EUR", "de-DE", 123_400],
    ["1,234", "AUD", "en-AU", 123_400],
    ["1,234,567", "AUD", "en-AU", 123_456_700],
    ["1’234.50", "CHF", "de-CH", 123_450],
    ["$ 12", "AUD", "en-AU", 1200],
    ["12.00 AUD", "AUD", "en-AU", 1200],
    ["kr 12,5", "NOK", "nb-NO", 1250],
    ["−12,50", "NOK", "nb-NO", -1250],
    ["-0", "AUD", "en-AU", 0],
    [".5", "AUD", "en-AU", 50],
    ["1.234", "KWD", "en-US", 1234],
    ["1,234", "JPY", "en-US", 1234],
  ])("reads %s in %s for %s", (typed, currency, locale, minor) => {
    expect(parseMoney(typed, currency, locale)).toBe(minor);
  });

  it.each([
    ["", "AUD", "en-AU", "no amount"],
    ["twelve", "AUD", "en-AU", "no amount"],
    ["1.2.3", "AUD", "en-AU", "no amount"],
    ["12 34", "AUD", "en-AU", "no amount"],
    ["1,23,4.50", "AUD", "en-AU", "no amount"],
    ["1.234", "AUD", "en-AU", "more than 2 decimals"],
    ["1.5", "JPY", "en-US", "more than 0 decimals"],
    ["1.234", "NOK", "nb-NO", "two ways"],
    ["1e3", "AUD", "en-AU", "no amount"],
    ["99999999999999999", "AUD", "en-AU", "too large"],
  ])("refuses %s in %s for %s", (typed, currency, locale, why) => {
    expect(() => parseMoney(typed, currency, locale)).toThrow(Refusal);
    expect(() => parseMoney(typed, currency, locale)).toThrow(why);
  });

  it("reads back what it shows", () => {
    const places = fc.constantFrom(
      ["AUD", "en-AU"],
      ["NOK", "nb-NO"],
      ["EUR", "de-DE"],
      ["EUR", "fr-FR"],
      ["SEK", "sv-SE"],
      ["DKK", "da-DK"],
      ["CHF", "de-CH"],
      ["GBP", "en-GB"],
      ["JPY", "en-US"],
    );
    fc.assert(
      fc.property(fc.integer({ min: -1e9, max: 1e9 }), places, (minor, [currency, locale]) => {
        expect(
          parseMoney(formatMoney(minor, currency ?? "", locale ?? ""), currency ?? "", locale ?? ""),
        ).toBe(minor);
      }),
    );
  });
});
