import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import { firstInFirstOut, movingAverage, periodicAverageE4 } from "@/lib/domain/stock/cost";
import { jetSizes, nearestSizes, parseJetSize } from "@/lib/domain/stock/jets";
import { measuredLead } from "@/lib/domain/stock/leadTime";
import { applyMove, EMPTY_STOCK, type MoveKind, onHand, type StockMove } from "@/lib/domain/stock/moves";
import { normalProbability, normalQuantile } from "@/lib/domain/stock/normal";
import { stockPolicy } from "@/lib/domain/stock/policy";
import { economicQuantity, leadTimeSd, reorderPoint, safetyStock } from "@/lib/domain/stock/reorder";
import { available, reserve } from "@/lib/domain/stock/reserve";
import { splitMoves } from "@/lib/domain/stock/split";

// jstat brings no types.
const jstat = createRequire(import.meta.url)("jstat") as {
  normal: { inv: (p: number, mean: number, sd: number) => number };
};

const move = (kind: MoveKind, units: number, cost: number | null = null): StockMove => ({
  kind,
  quantityMilli: units * 1000,
  unitCostE4: cost === null ? null : Math.round(cost * 10_000),
});

/** Accounting Principles: A Business Perspective, inventory chapter (open textbook): one year of purchases and sales. */
const YEAR = [
  move("opening", 10, 8),
  move("receipt", 10, 8.5),
  move("use", -10),
  move("receipt", 20, 8.4),
  move("use", -20),
  move("receipt", 10, 9),
  move("use", -10),
  move("receipt", 20, 8.8),
  move("use", -20),
  move("receipt", 10, 9.1),
];

describe("cost of stock", () => {
  it("matches the textbook's periodic average 8.625, ending inventory 172.50 and cost of goods sold 517.50", () => {
    expect(periodicAverageE4(YEAR)).toBe(86_250);
    const units = onHand(YEAR) / 1000;
    const bought = 80;
    expect((units * periodicAverageE4(YEAR)) / 10_000).toBe(172.5);
    expect(((bought - units) * periodicAverageE4(YEAR)) / 10_000).toBe(517.5);
  });

  it("first in, first out leaves the newest cost: 10 at 9.10 and 10 at 8.80 (by hand)", () => {
    const found = firstInFirstOut(YEAR);
    expect(found.valueE4).toBe(1_790_000);
    expect(found.outE4).toBe(6_900_000 - 1_790_000);
    expect(found.layers.map((layer) => layer.quantityMilli)).toEqual([10_000, 10_000]);
  });

  it("moving average weighs what is there with what comes (by hand: 10 at 8.00 and 10 at 8.50 is 8.25)", () => {
    expect(movingAverage(YEAR.slice(0, 2)).averageE4).toBe(82_500);
    expect(movingAverage(YEAR.slice(0, 3))).toMatchObject({
      onHandMilli: 10_000,
      valueE4: 825_000,
      outE4: 825_000,
    });
    // 10 at 8.25 and 20 at 8.40: 250.5 over 30.
    expect(movingAverage(YEAR.slice(0, 4)).averageE4).toBe(83_500);
    // On by hand: 173.50 over 20, 262.75 over 30, 178.58333 over 20. Each rounding is below a ten-thousandth a unit.
    const year = movingAverage(YEAR);
    expect(year.onHandMilli).toBe(20_000);
    expect(Math.abs(year.valueE4 - 1_785_833)).toBeLessThanOrEqual(20);
    expect(Math.abs((year.averageE4 ?? 0) - 89_292)).toBeLessThanOrEqual(1);
    expect(year.valueE4 + year.outE4).toBe(6_900_000);
  });

  it("loses nothing: what came in is what is left and what went out, by either way of costing", () => {
    const kinds: MoveKind[] = ["receipt", "use"];
    const moves = fc.array(
      fc.record({
        kind: fc.constantFrom(...kinds),
        milli: fc.integer({ min: 1, max: 90_000 }),
        cost: fc.integer({ min: 0, max: 5_000_000 }),
      }),
      { maxLength: 30 },
    );
    fc.assert(
      fc.property(moves, (raw) => {
        const ledger: StockMove[] = [];
        for (const { kind, milli, cost } of raw) {
          const there = onHand(ledger);
          if (kind === "receipt") ledger.push({ kind, quantityMilli: milli, unitCostE4: cost });
          else if (there > 0) ledger.push({ kind, quantityMilli: -Math.min(milli, there), unitCostE4: null });
        }
        const average = movingAverage(ledger);
        const fifo = firstInFirstOut(ledger);
        expect(average.onHandMilli).toBe(onHand(ledger));
        expect(fifo.onHandMilli).toBe(onHand(ledger));
        expect(fifo.layers.reduce((sum, layer) => sum + layer.quantityMilli, 0)).toBe(onHand(ledger));
        expect(average.valueE4 + average.outE4).toBe(fifo.valueE4 + fifo.outE4);
        expect(average.valueE4).toBeGreaterThanOrEqual(0);
        if (average.onHandMilli === 0) expect(average.valueE4).toBe(0);
      }),
    );
  });

  it("keeps the last average for a bin that was empty, and takes costless arrivals at it", () => {
    const used = movingAverage([move("receipt", 3, 4), move("use", -3)]);
    expect(used).toMatchObject({ onHandMilli: 0, valueE4: 0, averageE4: 40_000 });
    expect(applyMove(used, move("returnToStock", 1)).valueE4).toBe(40_000);
  });

  it("refuses to go below nothing, in the wrong direction, or nowhere", () => {
    const one = applyMove(EMPTY_STOCK, move("receipt", 1, 2));
    expect(() => applyMove(one, move("use", -2))).toThrow(/Only 1 on hand/);
    expect(() => applyMove(one, move("use", 1))).toThrow(Refusal);
    expect(() => applyMove(one, move("receipt", -1, 2))).toThrow(Refusal);
    expect(() => applyMove(one, move("count", 0))).toThrow(Refusal);
    expect(applyMove(one, move("count", -1)).onHandMilli).toBe(0);
    expect(() => periodicAverageE4([move("use", -1)])).toThrow(Refusal);
  });
});

describe("reservations", () => {
  it("never reserve more than is on hand and on order, and account for all that is wanted", () => {
    const quantity = fc.nat(20_000);
    fc.assert(
      fc.property(quantity, quantity, quantity, quantity, (wantedMilli, onHandMilli, onOrderMilli, share) => {
        const reservedMilli = Math.min(share, onHandMilli + onOrderMilli);
        const held = reserve({ wantedMilli, onHandMilli, reservedMilli, onOrderMilli });
        expect(held.fromStockMilli + held.fromOrderMilli + held.shortMilli).toBe(wantedMilli);
        expect(Math.min(held.fromStockMilli, held.fromOrderMilli, held.shortMilli)).toBeGreaterThanOrEqual(0);
        expect(reservedMilli + held.fromStockMilli + held.fromOrderMilli).toBeLessThanOrEqual(
          onHandMilli + onOrderMilli,
        );
        if (held.shortMilli > 0)
          expect(reservedMilli + held.fromStockMilli + held.fromOrderMilli).toBe(onHandMilli + onOrderMilli);
      }),
    );
  });

  it("give the last jet to one of two", () => {
    expect(reserve({ wantedMilli: 1000, onHandMilli: 1000, reservedMilli: 0 })).toEqual({
      fromStockMilli: 1000,
      fromOrderMilli: 0,
      shortMilli: 0,
    });
    expect(reserve({ wantedMilli: 1000, onHandMilli: 1000, reservedMilli: 1000 })).toEqual({
      fromStockMilli: 0,
      fromOrderMilli: 0,
      shortMilli: 1000,
    });
    expect(available({ onHandMilli: 1000, reservedMilli: 3000, onOrderMilli: 5000 })).toEqual({
      nowMilli: 0,
      laterMilli: 3000,
    });
    expect(() => reserve({ wantedMilli: -1, onHandMilli: 0, reservedMilli: 0 })).toThrow(Refusal);
  });
});

describe("when and how much to order", () => {
  it("order quantity: D 1000, S 10, H 0.50 gives 200 (Heizer and Render, Operations Management)", () => {
    expect(economicQuantity(1000, 10, 0.5)).toBe(200);
    expect(() => economicQuantity(1000, 10, 0)).toThrow(Refusal);
  });

  it("reorder point: mean 50, sigma 5, risk 3 % gives safety 9.40 and point 59.40 (Stevenson ch. 12 ex. 8, z read as 1.88)", () => {
    expect(safetyStock(5, 0.03)).toBeCloseTo(9.4, 1);
    expect(Math.abs(reorderPoint(50, 5, 0.03) - 59.4)).toBeLessThan(0.01);
  });

  it("spread in the lead time adds use and supplier (by hand: sqrt(9 x 4 + 25 x 4) = sqrt 136)", () => {
    expect(leadTimeSd({ usePerDay: 5, useSd: 2, leadDays: 9, leadSd: 2 })).toBeCloseTo(Math.sqrt(136), 12);
  });

  it("reorder point with variable use and lead time: 150 a day, sd 16, 5 days, sd 1, 95 %: 1,004 (Heizer and Render, from memory)", () => {
    const sd = leadTimeSd({ usePerDay: 150, useSd: 16, leadDays: 5, leadSd: 1 });
    expect(Math.round(sd)).toBe(154);
    // The book reads z as 1.65.
    expect(Math.abs(reorderPoint(750, sd, 0.05) - 1004)).toBeLessThan(1);
  });

  it("measures a supplier's lead time by its deliveries: 4, 6, 8 and 10 days are 7, give or take the root of 20/3", () => {
    expect(measuredLead([4, 6, 8, 10])).toEqual({ meanDays: 7, sdDays: Math.sqrt(20 / 3), deliveries: 4 });
    expect(measuredLead([4, 6])).toBeNull();
    expect(() => measuredLead([4, 6, -1])).toThrow(OutOfRange);
  });

  it("normal quantile and probability agree with jstat 1.9.6", () => {
    // jstat's own erf and its inverse carry about 1e-7 here.
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 1 - 1e-5, noNaN: true }), (p) => {
        expect(normalQuantile(p)).toBeCloseTo(jstat.normal.inv(p, 0, 1), 5);
        expect(normalProbability(normalQuantile(p))).toBeCloseTo(p, 12);
      }),
    );
    // Tables of the normal distribution: 0.975 is 1.959964, 0.97 is 1.880794.
    expect(normalQuantile(0.975)).toBeCloseTo(1.959964, 6);
    expect(normalQuantile(0.97)).toBeCloseTo(1.880794, 6);
    expect(normalQuantile(0.5)).toBe(0);
    expect(() => normalQuantile(0)).toThrow(Refusal);
  });

  const habits = {
    days: 365,
    leadDays: 10,
    leadSd: 2,
    risk: 0.03,
    costPerOrder: 10,
    holdingPerUnitYear: 0.5,
    packMilli: 5000,
  };

  it("uses min and max for a part used a few times a year, and says so", () => {
    const policy = stockPolicy({
      ...habits,
      uses: [
        { day: 3, quantityMilli: 1000 },
        { day: 200, quantityMilli: 4000 },
      ],
    });
    expect(policy).toMatchObject({ method: "min and max", pointMilli: 4000, orderMilli: 5000 });
    expect(policy.because.at(-1)?.effect).toBe("min and max");
  });

  it("uses a reorder point for a part used steadily: every day one unit", () => {
    const uses = Array.from({ length: 365 }, (_, day) => ({ day, quantityMilli: 1000 }));
    const policy = stockPolicy({ ...habits, uses });
    expect(policy.method).toBe("reorder point");
    // Use has no spread, so sd = 1 a day x 2 days of supplier spread: 10 + 1.8808 x 2.
    expect(policy.pointMilli / 1000).toBeCloseTo(10 + 1.880794 * 2, 2);
    // sqrt(2 x 365 x 10 / 0.5) = 120.8, in packs of five.
    expect(policy.orderMilli).toBe(125_000);
  });
});

describe("jet sizes", () => {
  it("are read as people write them", () => {
    expect(["122.5", "122,5", "#120", " No. 47,5 ", "120.0", "nr 95", "97.50"].map(parseJetSize)).toEqual([
      122.5, 122.5, 120, 47.5, 120, 95, 97.5,
    ]);
  });

  it("are refused when they are none", () => {
    for (const text of ["", "abc", "12.25", "1200", "5", "500", "-120", "120 130", "1,2,3"])
      expect(() => parseJetSize(text)).toThrow(Refusal);
  });

  it("survive being written and read again", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 4000 }),
        (tenths) => parseJetSize(`#${tenths / 10}`) === tenths / 10,
      ),
    );
  });

  it("of a family rise in exact steps, and the nearest are found, the larger of two equals first", () => {
    const sizes = jetSizes({ low: 100, high: 110, step: 2.5 });
    expect(sizes).toEqual([100, 102.5, 105, 107.5, 110]);
    expect(nearestSizes(sizes, 103.75)).toMatchObject({
      same: null,
      below: 102.5,
      above: 105,
      nearest: [105, 102.5, 107.5, 100, 110],
    });
    expect(nearestSizes(sizes, 110)).toMatchObject({ same: 110, below: 107.5, above: null });
    expect(nearestSizes([], 110)).toEqual({ same: null, below: null, above: null, nearest: [] });
    expect(() => jetSizes({ low: 100, high: 110, step: 0 })).toThrow(Refusal);
  });
});

describe("opening an assortment", () => {
  it("shares its worth by weight, and loses less than half a ten-thousandth a piece", () => {
    const { out, into } = splitMoves({ quantityMilli: 1000, unitCostE4: 400_000 }, [
      { code: "J100", quantityMilli: 2000, weight: 1 },
      { code: "J110", quantityMilli: 1000, weight: 2 },
    ]);
    expect(out).toEqual({ kind: "split", quantityMilli: -1000, unitCostE4: 400_000 });
    expect(into.map((piece) => piece.move.unitCostE4)).toEqual([100_000, 200_000]);
    expect(() => splitMoves({ quantityMilli: 1000, unitCostE4: 1 }, [])).toThrow(Refusal);
  });
});
