import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { keptKits, kitsOf, withKit } from "@/lib/domain/packages/optionKits";
import type { Option } from "@/lib/domain/packages/recipe";
import { type KitPart, kitsFree, openKit } from "@/lib/domain/pricing/kit";
import { shareUsed } from "@/lib/domain/pricing/kitParts";
import { priceSale, type SaleRules } from "@/lib/domain/pricing/sale";

import { computeQuote } from "@/lib/domain/quoting/compute";
import { FACTS, part } from "./quoteFacts";

const RULES: SaleRules = {
  currency: "AUD",
  locale: "en-AU",
  pricesIncludeTax: true,
  taxRegime: "au",
  discountBp: 0,
  discountWhy: "",
};
const counted = fc.record({
  quantityMilli: fc.integer({ min: 1, max: 99 }).map((n) => n * 1000),
  priceE4: fc.option(fc.integer({ min: 0, max: 2_000_000 }), { nil: null }),
});
const measured = fc.record({
  quantityMilli: fc.integer({ min: 100_000, max: 1_000_000 }),
  priceE4: fc.option(fc.integer({ min: 0, max: 2_000 }), { nil: null }),
});
const named = (parts: readonly Omit<KitPart, "code">[]): KitPart[] =>
  parts.map((part, at) => ({ ...part, code: `P${at}` }));
const sum = (numbers: readonly number[]) => numbers.reduce((all, one) => all + one, 0);

describe("a kit opened", () => {
  // Identity: what is split adds up to what was split.
  it("comes to its own price to the cent, and takes so much of each part, whatever is in it", () => {
    fc.assert(
      fc.property(
        fc.array(counted, { minLength: 1, maxLength: 12 }),
        fc.array(measured, { maxLength: 4 }),
        fc.integer({ min: 0, max: 200_000 }),
        (pieces, lengths, priceMinor) => {
          const parts = named([...pieces, ...lengths]);
          const lines = openKit(parts, priceMinor, 1, "AUD");
          expect(sum(lines.map((line) => line.amountMinor ?? Number.NaN))).toBe(priceMinor);
          expect(lines.every((line) => (line.amountMinor ?? -1) >= 0)).toBe(true);
          expect(lines.map((line) => line.quantityMilli)).toEqual(parts.map((part) => part.quantityMilli));
        },
      ),
    );
  });

  it("comes to that price on a receipt too, as the counter reckons it from price times quantity", () => {
    fc.assert(
      fc.property(
        fc.array(counted, { minLength: 1, maxLength: 12 }),
        fc.integer({ min: 0, max: 200_000 }),
        (pieces, priceMinor) => {
          const lines = openKit(named(pieces), priceMinor, 1, "AUD");
          const sold = lines.map(({ code, quantityMilli, unitPriceE4 }) => ({
            code,
            name: code,
            unit: "each",
            quantityMilli,
            unitPriceE4: unitPriceE4 ?? 0,
            discountBp: 0,
          }));
          expect(priceSale(sold, RULES).grossMinor).toBe(priceMinor);
        },
      ),
    );
  });

  // By hand: 19.90 over 3.20, 12.50 and 5.00 of 20.70. The solvent's 4.81 is 0.0192 a ml, 4.80; 15.10 is left for 3.20 and 12.50.
  it("splits by its parts' prices, the measured part first to its nearest cent", () => {
    const parts = [
      { code: "SCREW", quantityMilli: 4_000, priceE4: 8_000 },
      { code: "SEAL", quantityMilli: 1_000, priceE4: 125_000 },
      { code: "SOLVENT", quantityMilli: 250_000, priceE4: 200 },
    ];
    expect(openKit(parts, 1990, 1, "AUD").map(({ amountMinor }) => amountMinor)).toEqual([308, 1202, 480]);
    expect(openKit(parts, null, 2, "AUD").map(({ amountMinor }) => amountMinor)).toEqual([640, 2500, 1000]);
    expect(openKit(parts, null, 2, "AUD").map(({ quantityMilli }) => quantityMilli)).toEqual([
      8_000, 2_000, 500_000,
    ]);
  });

  it("refuses a price that no line could carry to the cent, and less than one kit", () => {
    const hose = [{ code: "HOSE", quantityMilli: 500_000, priceE4: 40 }];
    expect(() => openKit(hose, 1999, 1, "AUD")).toThrow("cannot be split to the cent");
    expect(() => openKit(hose, null, 0, "AUD")).toThrow("opened whole");
    expect(openKit(hose, null, 1, "AUD")[0]?.amountMinor).toBe(200);
  });

  it("can be opened as often as its scarcest part allows", () => {
    expect(
      kitsFree([
        { quantityMilli: 4_000, freeMilli: 11_000 },
        { quantityMilli: 1_000, freeMilli: 9_000 },
      ]),
    ).toBe(2);
    expect(kitsFree([{ quantityMilli: 1_000, freeMilli: -500 }])).toBe(0);
    expect(kitsFree([])).toBe(0);
  });
});

describe("a kit with a set price in an option of a quote", () => {
  const KIT = { code: "KIT", name: "Service kit" };
  const contents = fc.uniqueArray(
    fc.record({
      n: fc.integer({ min: 0, max: 30 }),
      quantityMilli: fc.integer({ min: 1, max: 400_000 }),
      priceE4: fc.option(fc.integer({ min: 0, max: 900_000 }), { nil: null }),
      costE4: fc.option(fc.integer({ min: 0, max: 900_000 }), { nil: null }),
    }),
    { minLength: 1, maxLength: 10, selector: ({ n }) => n },
  );
  const priced = (inside: readonly { n: number; quantityMilli: number }[], priceMinor: number, more = {}) => {
    const parts = inside.map(({ n, quantityMilli }) => ({ code: `P${n}`, quantityMilli }));
    const options = FACTS.recipe.options.map((option): Option => {
      if (option.key !== "breather") return option;
      return { ...option, ...withKit(option, { ...KIT, priceMinor, parts }) };
    });
    return computeQuote({ ...FACTS, ...more, recipe: { ...FACTS.recipe, options } });
  };
  const plain = computeQuote(FACTS).price;

  // Identity: what is split adds up to what was split, whatever the parts cost by themselves.
  it("adds exactly its price to the quote, its parts' own costs to the margin, and nothing for its parts' prices", () => {
    fc.assert(
      fc.property(
        contents,
        fc.integer({ min: 0, max: 200_000 }),
        fc.boolean(),
        (inside, priceMinor, inclusive) => {
          const rows = inside.map(({ n, priceE4, costE4 }) => part(500 + n, `P${n}`, { priceE4, costE4 }));
          const more = {
            parts: [...FACTS.parts, ...rows],
            terms: { ...FACTS.terms, pricesIncludeTax: inclusive, ...(inclusive ? { taxRegime: "au" } : {}) },
          };
          const { price, warnings } = priced(inside, priceMinor, more);
          const lines = price.lines.filter((line) => line.kit);
          expect(sum(lines.map((line) => line.shownMinor))).toBe(priceMinor);
          expect(lines.every((line) => line.shownMinor >= 0)).toBe(true);
          expect(price.grossMinor).toBe(computeQuote({ ...FACTS, ...more }).price.grossMinor + priceMinor);
          expect(lines.map((line) => line.costMinor === null)).toEqual(
            inside.map(({ costE4 }) => costE4 === null),
          );
          expect(warnings.filter((one) => one.message.includes("no price"))).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  // By hand: 19.90 over a seal at 12.50 and four screws of 0.80 (3.20): 15.84 and 4.06. Two of the four screws: 2.03.
  it("is shared by what its parts cost by themselves, and half of a part is half of its share", () => {
    const rows = [part(501, "P1", { priceE4: 125_000 }), part(502, "P2", { priceE4: 8_000, costE4: 3_000 })];
    const { price } = priced(
      [
        { n: 1, quantityMilli: 1000 },
        { n: 2, quantityMilli: 4000 },
      ],
      1990,
      { parts: [...FACTS.parts, ...rows] },
    );
    const lines = price.lines.filter((line) => line.kit);
    expect(lines.map((line) => [line.name, line.shownMinor, line.costMinor])).toEqual([
      ["P1 (Service kit)", 1584, 1000],
      ["P2 (Service kit)", 406, 120],
    ]);
    expect(price.grossMinor).toBe(plain.grossMinor + 1990);
    expect([shareUsed(406, 4000, 2000), shareUsed(406, 4000, 4000), shareUsed(406, 4000, 0)]).toEqual([
      203, 406, 0,
    ]);
  });

  it("is told to be below its cost as a whole, never by one of its parts", () => {
    const rows = [
      part(501, "P1", { priceE4: 1, costE4: 90_000 }),
      part(502, "P2", { priceE4: 990_000, costE4: 0 }),
    ];
    const inside = [
      { n: 1, quantityMilli: 1000 },
      { n: 2, quantityMilli: 1000 },
    ];
    const more = { parts: [...FACTS.parts, ...rows] };
    const atLoss = (priceMinor: number) =>
      priced(inside, priceMinor, more).price.warnings.filter((said) => said.includes("below its cost"));
    expect(atLoss(900)).toEqual([]);
    expect(atLoss(899)).toEqual(["The kit “Service kit” is sold below its cost."]);
  });

  it("stays with its parts as they are written anew, and goes with the last of them", () => {
    const kit = { ...KIT, priceMinor: 500, parts: [{ code: "P1", quantityMilli: 1000 }] };
    const twice = withKit(
      withKit({ parts: [{ kind: "part", code: "P1", quantityMilli: 3000 }] }, kit),
      kitsOf(kit, 2),
    );
    expect(twice).toEqual({
      parts: [
        { kind: "part", code: "P1", quantityMilli: 3000 },
        { kind: "part", code: "P1", quantityMilli: 3000, kit: "KIT" },
      ],
      kits: [{ ...KIT, priceMinor: 1500 }],
    });
    expect(keptKits(twice.parts, twice.kits ?? [])).toEqual(twice);
    expect(keptKits(twice.parts.slice(0, 1), twice.kits ?? [])).toEqual({ parts: twice.parts.slice(0, 1) });
    expect(keptKits(twice.parts.slice(1), [])).toEqual({
      parts: [{ kind: "part", code: "P1", quantityMilli: 3000 }],
    });
  });
});
