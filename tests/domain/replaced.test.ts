import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { computeQuote } from "@/lib/domain/quoting/compute";
import { chainFrom, oldFirst } from "@/lib/domain/stock/replaced";
import { FACTS, part } from "./quoteFacts";

const one = (id: number, replacedById: number | null = null) => ({ id, replacedById });
const among =
  <T extends { id: number }>(all: readonly T[]) =>
  (id: number) =>
    all.find((each) => each.id === id);

describe("a chain of replacements", () => {
  it("goes from the part to the one that is made today, and ends where nothing is known or a circle closes", () => {
    const parts = [one(1, 2), one(2, 3), one(3), one(4, 99), one(5, 6), one(6, 5)];
    const ids = (id: number) => chainFrom(among(parts)(id) ?? one(0), among(parts)).map((each) => each.id);
    expect([1, 3, 4, 5].map(ids)).toEqual([[1, 2, 3], [3], [4], [5, 6]]);
    const long = Array.from({ length: 30 }, (_, at) => one(at + 1, at + 2));
    expect(chainFrom(long[0] ?? one(0), among(long))).toHaveLength(11);
  });

  // Identity: what is taken adds up to what is wanted, and nothing newer goes before what is left of the older.
  it("is used up from its old end, and the newest has the rest, there or not", () => {
    const frees = fc.array(fc.integer({ min: 0, max: 5000 }), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(frees, fc.integer({ min: 1, max: 20_000 }), (free, wanted) => {
        const chain = free.map((milli, id) => ({ id, milli })) as [{ id: number; milli: number }];
        const taken = oldFirst(chain, wanted, ({ milli }) => milli);
        expect(taken.reduce((sum, { quantityMilli }) => sum + quantityMilli, 0)).toBe(wanted);
        for (const { part: from, quantityMilli } of taken) {
          expect(quantityMilli).toBeGreaterThan(0);
          if (from !== chain.at(-1)) expect(quantityMilli).toBeLessThanOrEqual(from.milli);
          const older = chain.filter(({ id }) => id < from.id);
          const left = older.reduce((sum, { id, milli }) => sum + milli - used(taken, id), 0);
          expect(left).toBe(0);
        }
      }),
    );
  });
});

const used = (taken: readonly { part: { id: number }; quantityMilli: number }[], id: number) =>
  taken.find((each) => each.part.id === id)?.quantityMilli ?? 0;

describe("a quote of a part that is made no more", () => {
  const facts = (oldFree: number) => ({
    ...FACTS,
    parts: [
      ...FACTS.parts.filter((each) => each.code !== "BF-20"),
      part(1, "BF-20", { freeMilli: oldFree, replacedById: 9 }),
      part(9, "BF-21", { freeMilli: 0, priceE4: 200_000, leadDays: 3 }),
    ],
  });
  const filters = (oldFree: number) =>
    computeQuote(facts(oldFree)).parts.filter((each) => each.code.startsWith("BF"));

  it("takes what is left of it, at its own price", () => {
    expect(
      filters(1000).map(({ code, quantityMilli, shortMilli }) => [code, quantityMilli, shortMilli]),
    ).toEqual([["BF-20", 1000, 0]]);
  });

  // By hand: breather work 40.50 and threadlocker 1.50 as in quoting.test; half a filter at 15.00 is 7.50, half a new one at 20.00 is 10.00.
  it("takes the rest of what took its place, each priced as it is, and says in place of what", () => {
    expect(
      filters(500).map(({ code, quantityMilli, inPlaceOf }) => [code, quantityMilli, inPlaceOf]),
    ).toEqual([
      ["BF-20", 500, undefined],
      ["BF-21", 500, "BF-20"],
    ]);
    expect(filters(500)[1]?.note).toContain("in place of BF-20, which is made no more");
    expect(computeQuote(facts(500)).price.grossMinor).toBe(4_050 + 150 + 750 + 1_000);
    expect(filters(0).map(({ code, shortMilli }) => [code, shortMilli])).toEqual([["BF-21", 1000]]);
  });
});
