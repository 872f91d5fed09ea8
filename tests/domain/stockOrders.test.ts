import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type DatedMove, stockHistory, turnsAYear } from "@/lib/domain/stock/figures";
import { habitPolicy } from "@/lib/domain/stock/habit";
import { worthE4 } from "@/lib/domain/stock/moves";
import { inPacks, openOf, placedState, shareOut } from "@/lib/domain/stock/orders";
import { type PartToOrder, suggestOrder } from "@/lib/domain/stock/suggest";

const line = (quantityMilli: number, receivedMilli = 0, cancelledMilli = 0) => ({
  quantityMilli,
  receivedMilli,
  cancelledMilli,
});
const say = { quantity: (milli: number) => String(milli / 1000), day: (day: string) => day };
const part = (more: Partial<PartToOrder>): PartToOrder => ({
  freeMilli: 0,
  comingMilli: 0,
  pointMilli: 0,
  topMilli: null,
  policy: null,
  sold: { packMilli: 0, leastMilli: 0 },
  shortages: [],
  ...more,
});
const job = (number: number, shortMilli: number, neededOn: string | null) => ({
  jobId: number,
  jobNumber: String(number),
  shortMilli,
  neededOn,
});

describe("order lines", () => {
  it("give an order its state", () => {
    expect(placedState([line(5), line(5)])).toBe("ordered");
    expect(placedState([line(5, 5), line(5)])).toBe("partReceived");
    expect(placedState([line(5, 2, 3), line(5, 0, 5)])).toBe("received");
    expect(placedState([line(5, 0, 5)])).toBe("cancelled");
  });

  it("share a delivery without losing or making any of it, and none gets more than is open", () => {
    const some = fc.tuple(fc.nat(9), fc.nat(9), fc.nat(9));
    const lines = fc.array(
      some.map(([open, received, cancelled]) => line(open + received + cancelled, received, cancelled)),
      { maxLength: 6 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), lines, (came, rows) => {
        const numbered = rows.map((row, id) => ({ ...row, id }));
        const shares = shareOut(came, numbered);
        expect(shares.reduce((sum, share) => sum + share.quantityMilli, 0)).toBe(came);
        for (const share of shares) {
          expect(share.quantityMilli).toBeGreaterThan(0);
          const row = numbered[share.lineId ?? -1];
          if (row) expect(share.quantityMilli).toBeLessThanOrEqual(openOf(row));
        }
      }),
    );
  });

  it("come in whole packs, and no fewer than the supplier sells", () => {
    expect(inPacks(3_000, { packMilli: 5_000, leastMilli: 0 })).toBe(5_000);
    expect(inPacks(6_000, { packMilli: 5_000, leastMilli: 0 })).toBe(10_000);
    expect(inPacks(1_000, { packMilli: 0, leastMilli: 4_000 })).toBe(4_000);
    expect(inPacks(1_000, { packMilli: 3_000, leastMilli: 4_000 })).toBe(6_000);
    expect(inPacks(0, { packMilli: 5_000, leastMilli: 5_000 })).toBe(0);
  });
});

describe("what to order of a part", () => {
  it("is first what jobs are short of, the earliest needed first, less what is coming", () => {
    const lines = suggestOrder(
      part({
        comingMilli: 1_000,
        shortages: [job(620, 2_000, null), job(618, 2_000, "2026-12-03"), job(619, 1_000, "2026-12-01")],
      }),
      say,
    );
    expect(lines.map((one) => [one.jobId, one.quantityMilli, one.neededOn])).toEqual([
      [618, 2_000, "2026-12-03"],
      [620, 2_000, null],
    ]);
    expect(lines.every((one) => one.rule === "short for a job" && one.because.length >= 2)).toBe(true);
  });

  it("lets the rest of a pack serve the next job and then the shelf", () => {
    const lines = suggestOrder(
      part({
        sold: { packMilli: 10_000, leastMilli: 0 },
        pointMilli: 4_000,
        shortages: [job(1, 2_000, "2026-12-01"), job(2, 3_000, "2026-12-02")],
      }),
      say,
    );
    expect(lines.map((one) => [one.jobId, one.quantityMilli])).toEqual([[1, 10_000]]);
  });

  it("fills up to the top that was set, else to twice the point where no use is known", () => {
    expect(suggestOrder(part({ freeMilli: 1_000, pointMilli: 3_000, topMilli: 8_000 }), say)).toMatchObject([
      { rule: "fill up", quantityMilli: 7_000 },
    ]);
    expect(suggestOrder(part({ freeMilli: 1_000, pointMilli: 3_000 }), say)).toMatchObject([
      { rule: "twice the point", quantityMilli: 5_000 },
    ]);
    expect(suggestOrder(part({ freeMilli: 3_000, pointMilli: 3_000 }), say)).toEqual([]);
    expect(suggestOrder(part({ freeMilli: 1_000, comingMilli: 2_000, pointMilli: 3_000 }), say)).toEqual([]);
  });

  it("goes by the part's use where there is a year of it, and says which method", () => {
    const now = Date.UTC(2026, 10, 25);
    const day = 86_400_000;
    const record = (count: number, everyDays: number) =>
      habitPolicy({
        uses: Array.from({ length: count }, (_, n) => ({
          at: now - (n + 1) * everyDays * day,
          quantityMilli: 2_000,
        })),
        firstAt: now - 364 * day,
        now,
        unit: "each",
        leadDays: 7,
        unitCostE4: 50_000,
      });
    const often = suggestOrder(part({ policy: record(52, 7) }), say);
    expect(often[0]?.rule).toBe("reorder point");
    expect(often[0]?.because.some((reason) => reason.effect?.startsWith("safety stock"))).toBe(true);
    expect(suggestOrder(part({ policy: record(4, 80) }), say)[0]?.rule).toBe("min and max");
  });
});

function historyOf(moves: readonly DatedMove[], instants: readonly number[], usedFrom: number) {
  const sums = stockHistory(instants, usedFrom);
  for (const move of moves) sums.add(move);
  return sums.history();
}

describe("figures", () => {
  it("come to the same in whatever order moves are written, each instant as if it were asked by itself", () => {
    const move = fc.record({
      partId: fc.integer({ min: 1, max: 4 }),
      kind: fc.constantFrom("receipt", "use", "returnToStock", "count", "betweenBins"),
      at: fc.integer({ min: 1, max: 20 }),
      quantityMilli: fc.integer({ min: -9_000, max: 9_000 }),
      unitCostE4: fc.option(fc.integer({ min: 0, max: 5_000_000 })),
    });
    fc.assert(
      fc.property(fc.array(move, { maxLength: 60 }), (moves) => {
        const instants = [15, 4, 9];
        const all = historyOf(moves, instants, 6);
        const known = moves.filter(({ at, kind }) => at <= 15 && kind !== "betweenBins");
        for (const end of instants) {
          const worth = [1, 2, 3, 4].map((id) => {
            const its = known.filter(({ partId, at }) => partId === id && at <= end);
            const sum = (of: (one: DatedMove) => number) => its.reduce((total, one) => total + of(one), 0);
            const onHand = sum(({ quantityMilli }) => quantityMilli);
            const value = sum(
              ({ quantityMilli: q, unitCostE4: c }) => Math.sign(q) * worthE4(Math.abs(q), c ?? 0),
            );
            return {
              onHand,
              value: onHand === 0 ? 0 : value,
              told: its.some((one) => one.unitCostE4 === null),
            };
          });
          expect(all.worth.get(end)).toEqual({
            valueE4: worth.reduce((total, { value }) => total + value, 0) + 0,
            withoutCost: worth.filter(({ onHand, told }) => onHand > 0 && told).length,
          });
        }
        expect(historyOf(moves.toReversed(), instants, 6)).toEqual(all);
        const last = known.filter(({ kind, partId }) => kind === "use" && partId === 1).map(({ at }) => at);
        expect(all.parts.get(1)?.lastUsedAt ?? null).toBe(last.length ? Math.max(...last) : null);
      }),
    );
  });

  it("have the worth that decimals give, up to quantities and costs whose product is no exact number", () => {
    const whole = fc.oneof(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 2 ** 31 - 1 }));
    fc.assert(
      fc.property(whole, whole, fc.constantFrom(1, -1), (quantity, cost, sign) => {
        const exact = (BigInt(quantity) * BigInt(cost) + 500n) / 1000n;
        expect(worthE4(sign * quantity, cost) + 0).toBe(sign * Number(exact) + 0);
      }),
    );
    expect(worthE4(1_500, 333)).toBe(500);
    expect(worthE4(-1_500, 333)).toBe(-500);
  });

  it("value what is on hand by what came in less what went out, as the textbook's periodic case ends", () => {
    // Accounting Principles: A Business Perspective: 10@8.00, +10@8.50; ten sold at their average of 8.25 leave 82.50.
    const moves = [
      { partId: 1, kind: "opening", at: 1, quantityMilli: 10_000, unitCostE4: 80_000 },
      { partId: 1, kind: "receipt", at: 2, quantityMilli: 10_000, unitCostE4: 85_000 },
      { partId: 1, kind: "use", at: 3, quantityMilli: -10_000, unitCostE4: 82_500 },
      { partId: 2, kind: "receipt", at: 3, quantityMilli: 1_000, unitCostE4: null },
    ];
    const { worth, parts, usedE4, firstAt } = historyOf(moves, [3, 2], 0);
    expect(worth.get(2)).toEqual({ valueE4: 1_650_000, withoutCost: 0 });
    expect(worth.get(3)).toEqual({ valueE4: 825_000, withoutCost: 1 });
    expect(parts.get(1)).toMatchObject({ onHandMilli: 10_000, valueE4: 825_000, firstAt: 1, lastUsedAt: 3 });
    expect([usedE4, firstAt]).toEqual([825_000, 1]);
    expect(turnsAYear(1_000, 500, 365)).toBe(2);
    expect(turnsAYear(1_000, 0, 365)).toBeNull();
  });
});
