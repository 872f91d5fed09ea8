import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { needs } from "@/lib/domain/packages/needs";
import type { Work, WrittenWork } from "@/lib/domain/packages/work";
import { planWork } from "@/lib/domain/plan/planWork";
import { byWork } from "@/lib/domain/quoting/byWork";
import { composeWorks } from "@/lib/domain/quoting/composeWorks";
import { computeQuote } from "@/lib/domain/quoting/compute";
import type { QuoteFacts } from "@/lib/domain/quoting/facts";
import { partsOf } from "@/lib/domain/quoting/parts";
import { priceFactsOf } from "@/lib/domain/quoting/price";
import { ROAD } from "../support/roadPackage";
import { exactQuote } from "./pricing-exact";
import { FACTS, part } from "./quoteFacts";

const NOTHING: Omit<WrittenWork, "name"> = {
  plain: "",
  steps: [],
  parts: [],
  outside: [],
  accesses: [],
  holdPoints: [],
  changes: [],
  cautions: [],
};

const amount = fc.integer({ min: 0, max: 99_999 });
const milli = fc.integer({ min: 1, max: 5_000 });
const randomWritten = fc
  .record({
    minutes: fc.array(
      fc.record({
        minutes: fc.integer({ min: 1, max: 240 }),
        grade: fc.constantFrom("workshop", "bench"),
        name: fc.constant(""),
      }),
      { maxLength: 3 },
    ),
    parts: fc.array(
      fc.record({
        kind: fc.constant("part" as const),
        code: fc.constantFrom("BF-20", "TL-M", "CH-520"),
        quantityMilli: milli,
      }),
      { maxLength: 3 },
    ),
    outside: fc.array(fc.record({ name: fc.constant("Chromed"), priceMinor: amount, costMinor: amount }), {
      maxLength: 2,
    }),
    fixedPriceMinor: fc.option(amount, { nil: undefined }),
  })
  .map(({ minutes, fixedPriceMinor, ...more }) => ({
    ...NOTHING,
    ...more,
    name: "Work by hand",
    steps: minutes,
    ...(fixedPriceMinor === undefined ? {} : { fixedPriceMinor }),
  }));

const randomPackage = fc.subarray(ROAD.options.map((o) => o.key)).map((ticks) => ({ ticks }));
const randomList = fc.array(fc.oneof(randomWritten, randomPackage), { minLength: 1, maxLength: 4 });

/** Facts of a list of works; the first stands without a key, as on every quote. */
function factsOf(list: readonly (WrittenWork | { ticks: string[] })[], more: Partial<QuoteFacts> = {}) {
  const choices: string[] = [];
  const works = list.map((one, at): Work => {
    const key = at === 0 ? "" : `w${at + 1}`;
    if (!("ticks" in one)) return { kind: "written", key, ...one };
    choices.push(...one.ticks.map((tick) => (key === "" ? tick : `${key}:${tick}`)));
    return { kind: "package", key, name: `Package ${at}`, recipe: ROAD };
  });
  const { recipe, works: heads, outside } = composeWorks(works);
  const chain = part(3, "CH-520", { costE4: 612_345 });
  return {
    ...FACTS,
    parts: [...FACTS.parts, chain],
    recipe,
    choices,
    ...(heads.length > 0 ? { works: heads, outside } : {}),
    ...more,
  } satisfies QuoteFacts;
}

const taxes = fc.constantFrom(
  { taxRegime: "none" },
  { taxRegime: "au", pricesIncludeTax: true },
  { taxRegime: "no", pricesIncludeTax: false },
);

describe("the price of a list of works", () => {
  it("has the totals that exact whole-number arithmetic gives, whatever packages and works it lists", () => {
    const terms = fc.record({ sundriesBp: fc.integer({ min: 0, max: 1_500 }), taxes });
    fc.assert(
      fc.property(randomList, terms, fc.integer({ min: 0, max: 3_000 }), (list, own, discountBp) => {
        const facts = factsOf(list, {
          discountBp,
          terms: { ...FACTS.terms, sundriesBp: own.sundriesBp, ...own.taxes },
        });
        const quote = computeQuote(facts);
        const { chosen } = quote.choice;
        const plan = planWork(needs(facts.recipe, chosen).operations, facts.recipe.accesses);
        const parts = partsOf(facts, chosen, quote.target.sheet);
        const exact = exactQuote(priceFactsOf(facts, chosen, plan, parts).price);
        const { netMinor, taxMinor, grossMinor, costMinor } = quote.price;
        expect({ netMinor, taxMinor, grossMinor, costMinor }).toEqual(exact.totals);
      }),
      { numRuns: 60 },
    );
  });

  it("keeps every line under the one work it is of, and all lines add up to the whole", () => {
    fc.assert(
      fc.property(randomList, (list) => {
        const facts = factsOf(list);
        const { price } = computeQuote(facts);
        const keys = price.lines.map((line) => line.key);
        expect(new Set(keys).size).toBe(keys.length);
        const groups = byWork(facts.works ?? [], price.lines);
        const sum = groups.flatMap(({ lines }) => lines).reduce((all, line) => all + line.shownMinor, 0);
        expect(sum).toBe(price.grossMinor);
        for (const { work, lines } of groups)
          for (const line of lines) expect(line.work).toBe(work?.key ?? undefined);
      }),
      { numRuns: 40 },
    );
  });

  it("of works that open nothing is the sum of what each costs alone, to the cent", () => {
    const list = fc.array(randomWritten, { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(list, (works) => {
        const all = computeQuote(factsOf(works)).price.grossMinor;
        const each = works.map((work) => computeQuote(factsOf([work])).price.grossMinor);
        expect(all).toBe(each.reduce((sum, one) => sum + one, 0));
      }),
      { numRuns: 60 },
    );
  });

  it("of one package is that of the package as quotes always were", () => {
    fc.assert(
      fc.property(randomPackage, ({ ticks }) => {
        const { works, outside, ...listed } = factsOf([{ ticks }]);
        expect([works, outside]).toEqual([undefined, undefined]);
        expect(computeQuote(listed).price).toEqual(
          computeQuote({ ...FACTS, parts: listed.parts, choices: ticks }).price,
        );
      }),
      { numRuns: 25 },
    );
  });
});
