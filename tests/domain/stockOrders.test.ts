import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stockAt, turnsAYear } from "@/lib/domain/stock/figures";
import { habitPolicy } from "@/lib/domain/stock/habit";
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

describe("figures", () => {
  it("value what is on hand by what came in less what went out, as the textbook's periodic case ends", () => {
    // Accounting Principles: A Business Perspective: 10@8.00, +10@8.50; ten sold at their average of 8.25 leave 82.50.
    const moves = [
      { partId: 1, kind: "opening", at: 1, quantityMilli: 10_000, unitCostE4: 80_000 },
      { partId: 1, kind: "receipt", at: 2, quantityMilli: 10_000, unitCostE4: 85_000 },
      { partId: 1, kind: "use", at: 3, quantityMilli: -10_000, unitCostE4: 82_500 },
      { partId: 2, kind: "receipt", at: 3, quantityMilli: 1_000, unitCostE4: null },
    ];
    expect(stockAt(moves, 2).valueE4).toBe(1_650_000);
    expect(stockAt(moves, 3)).toMatchObject({ valueE4: 825_000, withoutCost: 1 });
    expect(turnsAYear(1_000, 500, 365)).toBe(2);
    expect(turnsAYear(1_000, 0, 365)).toBeNull();
  });
});
