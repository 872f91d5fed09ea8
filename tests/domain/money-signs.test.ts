import { describe, expect, it } from "vitest";
import { allocate, roundToSum } from "../../lib/domain/money/allocate";
import { add, money, multiply, negate } from "../../lib/domain/money/arithmetic";
import { cashRounding } from "../../lib/domain/money/cash";
import { minorPerMajor } from "../../lib/domain/money/currency";
import { type DocumentAmount, documentTotals, taxGroups } from "../../lib/domain/money/document";
import { netsOfShown, taxOfShown } from "../../lib/domain/money/inclusive";
import { lineNet } from "../../lib/domain/money/line";
import { majorText } from "../../lib/domain/money/major";
import { basisPoints, roundHalfAway, roundToStep } from "../../lib/domain/money/round";
import { Refusal } from "../../lib/domain/refusal";

const positiveZero = (value: number) => expect(Object.is(value, 0)).toBe(true);

describe("signs", () => {
  it("turn when an amount is negated, so that a credit note is its invoice mirrored", () => {
    expect(negate(money(1005, "EUR"))).toEqual({ minor: -1005, currency: "EUR" });
    expect(negate(money(-1, "NOK"))).toEqual({ minor: 1, currency: "NOK" });
    expect(add(money(1005, "EUR"), negate(money(1005, "EUR"))).minor).toBe(0);
    expect(multiply(money(1005, "EUR"), -1)).toEqual(negate(money(1005, "EUR")));
  });

  it("never leave a zero that prints as minus nothing", () => {
    positiveZero(money(-0, "EUR").minor);
    positiveZero(multiply(money(-1, "EUR"), "0.1").minor);
    positiveZero(roundToStep(-2, 5));
    positiveZero(cashRounding(-1, 5).payableMinor);
    expect(majorText(-0, "EUR")).toBe("0.00");
  });
});

describe("limits of an amount", () => {
  // The largest integer that a double keeps apart from its neighbours: IEEE 754, 2^53 - 1.
  it("are the integers that a number keeps exactly", () => {
    expect(roundHalfAway("9007199254740991")).toBe(9_007_199_254_740_991);
    expect(() => roundHalfAway("9007199254740992")).toThrow(Refusal);
    expect(money(9_007_199_254_740_991, "AUD").minor).toBe(9_007_199_254_740_991);
    expect(() => money(9_007_199_254_740_992, "AUD")).toThrow(Refusal);
    expect(() => money(1, "XXZ")).toThrow("no currency");
  });

  it("are met by exact products: a hair below a half stays below it, at any length of the factor", () => {
    expect(multiply(money(1, "EUR"), "0.4999999999999999999999999").minor).toBe(0);
    expect(multiply(money(1, "EUR"), "0.5").minor).toBe(1);
    expect(multiply(money(9_007_199_254_740_991, "EUR"), "0.9999999999999999").minor).toBe(
      9_007_199_254_740_990,
    );
  });

  it("take a coin of one minor unit as none, and refuse half a one or a negative one", () => {
    expect(cashRounding(-777, 1)).toEqual({ payableMinor: -777, roundingMinor: 0 });
    expect(() => cashRounding(100, 0.5)).toThrow("no coin");
    expect(() => cashRounding(100, -5)).toThrow("no coin");
  });

  it("has 1, 100 and 1000 minor units in a yen's, an Australian dollar's and a Kuwaiti dinar's major unit (ISO 4217)", () => {
    expect(["JPY", "AUD", "KWD"].map(minorPerMajor)).toEqual([1, 100, 1000]);
  });

  it("says what part one amount is of another, and refuses a part of nothing", () => {
    expect([basisPoints(250, 1000), basisPoints(-1, 8), basisPoints(0, 5)]).toEqual([2500, -1250, 0]);
    expect(() => basisPoints(0, 0)).toThrow("share of nothing");
  });
});

describe("parts that add up", () => {
  it("each take one unit where all were cut by nearly one: 1.9 and 1.9 make 4", () => {
    expect(roundToSum([19, 19], 10, 4)).toEqual([2, 2]);
    expect(() => roundToSum([19, 19], 10, 5)).toThrow("do not add up");
    expect(() => roundToSum([19, 19], 10, -1)).toThrow("do not add up");
  });

  it("give a spare unit to the larger of two that were cut alike, then to the earlier", () => {
    expect(allocate(3, [1, 3, 2, 0])).toEqual([0, 2, 1, 0]);
    expect(roundToSum([5, 25, 15], 10, 4)).toEqual([0, 3, 1]);
    expect(roundToSum([15, 15, 15], 10, 5)).toEqual([2, 2, 1]);
    expect(roundToSum([-15, -15, -15], 10, -5)).toEqual([-2, -2, -1]);
  });

  it("refuse a share that is no number", () => {
    expect(() => allocate(100, [Number.NaN, 1])).toThrow(Refusal);
    expect(() => allocate(100, [-1, 0])).toThrow(Refusal);
  });
});

describe("totals of a document", () => {
  // EN 16931-1: BR-CO-13, 15, 16 and BT-114.
  it("take allowances off, add charges, take what is prepaid off and add the cash rounding", () => {
    const taxed = (netMinor: number): DocumentAmount => ({ netMinor, category: "S", rateBp: 2500 });
    const t = documentTotals({
      lines: [taxed(10_000)],
      allowances: [taxed(1000)],
      charges: [taxed(400)],
      prepaidMinor: 2000,
      roundingMinor: 50,
    });
    expect(t).toMatchObject({
      lineSumMinor: 10_000,
      allowanceMinor: 1000,
      chargeMinor: 400,
      netMinor: 9400,
      taxMinor: 2350,
      grossMinor: 11_750,
      prepaidMinor: 2000,
      roundingMinor: 50,
      dueMinor: 9800,
    });
  });

  it("come to what was shown, where an allowance with tax in it is taken off: 110.00 less 11.00 is 99.00, of it 9.00 GST", () => {
    const shown = (shownMinor: number, netMinor: number) => ({
      shownMinor,
      netMinor,
      category: "S",
      rateBp: 1000,
    });
    const t = documentTotals({
      lines: [shown(11_000, 10_000)],
      allowances: [shown(1100, 1000)],
      pricesIncludeTax: true,
    });
    expect([t.netMinor, t.taxMinor, t.grossMinor]).toEqual([9000, 900, 9900]);
  });

  it("need the shown amount of an allowance too, where prices include tax", () => {
    const line = { netMinor: 10_000, shownMinor: 11_000, category: "S", rateBp: 1000 };
    const allowance = { netMinor: 1000, category: "S", rateBp: 1000 };
    expect(() => documentTotals({ lines: [line], allowances: [allowance], pricesIncludeTax: true })).toThrow(
      "shownMinor",
    );
  });

  it("list taxes by category and then by falling rate, whatever the lines' order", () => {
    const at = (category: string, rateBp: number) => ({ netMinor: 100, category, rateBp });
    const all = [at("Z", 0), at("S", 600), at("E", 0), at("S", 2100), at("O", 0), at("S", 900)];
    const order = ["E 0", "O 0", "S 2100", "S 900", "S 600", "Z 0"];
    const told = (list: DocumentAmount[]) => taxGroups(list, false).map((g) => `${g.category} ${g.rateBp}`);
    expect(told(all)).toEqual(order);
    expect(told(all.toReversed())).toEqual(order);
  });

  it("keep rates apart where prices include tax: 11.00 at 10 % and 12.00 at 20 % are 10.00 each", () => {
    const amounts = [
      { shownMinor: 1100, category: "S", rateBp: 1000 },
      { shownMinor: 1200, category: "S", rateBp: 2000 },
      { shownMinor: 500, category: "E", rateBp: 0 },
    ];
    expect(netsOfShown(amounts)).toEqual([1000, 1000, 500]);
    expect(
      taxOfShown([
        { shownMinor: 1100, netMinor: 1000 },
        { shownMinor: -11, netMinor: -10 },
      ]),
    ).toBe(99);
  });

  it("price a line per base quantity, with its own allowances and charges, and let a price be nothing", () => {
    const line = { quantity: 3, price: "9.99", baseQuantity: 2, allowancesMinor: 100, chargesMinor: 30 };
    // 9.99 / 2 x 3 = 14.985 -> 14.99 - 1.00 + 0.30.
    expect(lineNet(line, "EUR")).toBe(1429);
    expect(lineNet({ quantity: 5, price: 0 }, "EUR")).toBe(0);
    expect(lineNet({ quantity: 5, price: -0 }, "EUR")).toBe(0);
    expect(lineNet({ quantity: 2, price: "1.5" }, "JPY")).toBe(3);
  });
});
