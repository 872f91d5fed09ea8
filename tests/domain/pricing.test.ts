import {
  dinero,
  halfAwayFromZero,
  add as theirAdd,
  multiply as theirMultiply,
  subtract as theirSubtract,
  toSnapshot,
  transformScale,
} from "dinero.js";
import * as theirCurrencies from "dinero.js/currencies";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineNet } from "../../lib/domain/money/line";
import { majorText } from "../../lib/domain/money/major";
import { invoiceTotals } from "../../lib/domain/pricing/document";
import type { PriceFacts } from "../../lib/domain/pricing/facts";
import { creditOf, deposit, netPriceOf } from "../../lib/domain/pricing/invoice";
import { marginBp } from "../../lib/domain/pricing/margin";
import { markupBand } from "../../lib/domain/pricing/markup";
import { priceQuote } from "../../lib/domain/pricing/quote";
import { OutOfRange, Refusal } from "../../lib/domain/refusal";
import { FULL } from "../support/size";
import { exactQuote } from "./pricing-exact";

/** Quotes made up at random. */
const RUNS = FULL ? 10_000 : 2_500;

const labour = (minutes: number, key = "carburettor"): PriceFacts["labour"][number] => ({
  key,
  name: "Carburettor off, cleaned, jetted, on",
  minutes,
  grade: "tuner",
  ratePerHourMinor: 12_000,
  costPerHourMinor: 5000,
  because: [{ fact: `${minutes} planned minutes`, from: "work plan" }],
});
const part = (
  code: string,
  over: Partial<PriceFacts["parts"][number]> = {},
): PriceFacts["parts"][number] => ({
  code,
  name: `Part ${code}`,
  unit: "each",
  quantityMilli: 1000,
  unitCostE4: 60_000,
  unitPriceE4: null,
  ...over,
});
const FACTS: PriceFacts = {
  currency: "AUD",
  locale: "en-AU",
  pricesIncludeTax: false,
  taxRegime: "au",
  labour: [labour(90)],
  sharedMinutesSaved: 25,
  parts: [
    part("MJ-150"),
    part("HOSE", { quantityMilli: 350, unit: "m", unitCostE4: 81_250, unitPriceE4: 140_000 }),
  ],
  fixed: [],
  outside: [],
  sundriesBp: 0,
  sundriesMaxMinor: null,
  discountBp: 0,
  discountWhy: "",
  minimumMarginBp: 3000,
  markupBands: [
    { upToE4: null, markupBp: 3000 },
    { upToE4: 100_000, markupBp: 8000 },
  ],
};

describe("a quote's price", () => {
  // By hand: 1.5 h x 120.00 = 180.00; 6.00 + 80 % = 10.80; 0.35 m x 14.00 = 4.90; 195.70; GST 19.57.
  it("is labour by the hour, parts by set price or markup band, and tax on the total", () => {
    const quote = priceQuote(FACTS);
    expect(quote.lines.map((l) => [l.key, l.quantityMilli, l.unitPriceE4, l.netMinor, l.costMinor])).toEqual([
      ["carburettor", 1500, 1_200_000, 18_000, 7500],
      ["MJ-150", 1000, 108_000, 1080, 600],
      ["HOSE", 350, 140_000, 490, 284],
    ]);
    expect([quote.netMinor, quote.taxMinor, quote.grossMinor]).toEqual([19_570, 1957, 21_527]);
    expect(quote.taxes).toEqual([
      { category: "S", rateBp: 1000, name: "GST 10 %", taxableMinor: 19_570, taxMinor: 1957 },
    ]);
    expect([quote.costMinor, quote.marginBp, quote.warnings, quote.unpriced]).toEqual([8384, 5716, [], []]);
  });

  it("gives every line its reasons, and the whole its regime and the minutes saved", () => {
    const quote = priceQuote({ ...FACTS, sundriesBp: 300, discountBp: 500, discountWhy: "club member" });
    for (const line of quote.lines) expect(line.because.length).toBeGreaterThan(0);
    const said = JSON.stringify(quote.lines.map((l) => l.because));
    for (const word of [
      "work plan",
      "120.00 an hour",
      "cost 6.00 plus 80 %",
      "set price",
      "club member",
      "GST 10 %",
    ]) {
      expect(said).toContain(word);
    }
    expect(JSON.stringify(quote.because)).toContain("25 min not charged");
  });

  // By hand: 19570 x 3 % = 587.1 -> 587, kept to 500; (19570 + 500) x 10 % = 2007 off.
  it("adds sundries up to their most and takes the discount off everything", () => {
    const quote = priceQuote({
      ...FACTS,
      sundriesBp: 300,
      sundriesMaxMinor: 500,
      discountBp: 1000,
      discountWhy: "agreed",
    });
    expect(
      quote.lines.slice(3).map((l) => [l.kind, l.name, l.quantityMilli, l.unitPriceE4, l.netMinor]),
    ).toEqual([
      ["sundries", "Sundries", 1000, 50_000, 500],
      ["discount", "agreed", -1000, 200_700, -2007],
    ]);
    expect(priceQuote({ ...FACTS, sundriesBp: 300 }).lines[3]?.netMinor).toBe(587);
  });

  // By hand: 195.70; 10 % off labour 18.00; 5 % of 177.70 = 8.885 -> 8.89; 20.00 agreed; 148.81 down to 145.00.
  it("takes off shares of lines, then the document's share, then an agreed amount, and rounds down", () => {
    const quote = priceQuote({
      ...FACTS,
      lineDiscounts: [{ line: "carburettor", bp: 1000, why: "came back" }],
      discountBp: 500,
      discountWhy: "club member",
      amountOffMinor: 2000,
      amountOffWhy: "agreed by phone",
      roundDownToMinor: 500,
    });
    expect(quote.lines.slice(3).map((l) => [l.name, l.netMinor])).toEqual([
      ["10 % off Carburettor off, cleaned, jetted, on", -1800],
      ["club member", -889],
      ["agreed by phone", -2000],
      ["Rounded down", -381],
    ]);
    expect([quote.netMinor, quote.taxMinor, quote.grossMinor]).toEqual([14_500, 1450, 15_950]);
  });

  it("never takes off more than there is, and refuses a discount on a line that is not there", () => {
    expect(priceQuote({ ...FACTS, amountOffMinor: 1_000_000 }).grossMinor).toBe(0);
    const stray = [{ line: "gone", bp: 100, why: "" }];
    expect(() => priceQuote({ ...FACTS, lineDiscounts: stray })).toThrow("“gone”");
  });

  it("carries lines written by hand at their own price, and lines of text at nothing", () => {
    const hand = (key: string, priceMinor: number) => ({ key, name: key, priceMinor, costMinor: 0 });
    const quote = priceQuote({ ...FACTS, byHand: [hand("collect", 4000), hand("note", 0)] });
    expect(quote.lines.slice(3).map((l) => [l.kind, l.netMinor])).toEqual([
      ["fixed", 4000],
      ["fixed", 0],
    ]);
  });

  it("splits the discount over taxed parts and untaxed labour, so that tax falls on what is paid", () => {
    const taxRates = { standardBp: 887.5, taxed: { labour: false } };
    const quote = priceQuote({
      ...FACTS,
      taxRegime: "us",
      taxRates,
      currency: "USD",
      discountBp: 1000,
      discountWhy: "agreed",
    });
    expect(quote.lines.filter((l) => l.kind === "discount").map((l) => [l.key, l.netMinor])).toEqual([
      ["discount-E-0", -1800],
      ["discount-S-887.5", -157],
    ]);
    // 15.70 - 1.57 = 14.13 x 8.875 % = 1.2540
    expect(quote.taxes.map((t) => [t.category, t.taxableMinor, t.taxMinor])).toEqual([
      ["E", 16_200, 0],
      ["S", 1413, 125],
    ]);
  });

  // By hand: shown 180.00 + (6.00 x 1.8 x 1.1 = 11.88) + 4.90 = 196.78; / 11 = 17.889 -> 17.89.
  it("keeps what is shown where prices include tax, with costs and markup still without", () => {
    const quote = priceQuote({ ...FACTS, pricesIncludeTax: true });
    expect(quote.lines.map((l) => l.shownMinor)).toEqual([18_000, 1188, 490]);
    expect([quote.netMinor, quote.taxMinor, quote.grossMinor]).toEqual([17_889, 1789, 19_678]);
    expect(quote.lines.reduce((sum, l) => sum + l.netMinor, 0)).toBe(17_889);
  });

  it("prices a package at its fixed price and work outside with its own cost", () => {
    const item = { key: "stage-1", name: "Stage one", priceMinor: 64_900, costMinor: 30_000 };
    const quote = priceQuote({
      ...FACTS,
      labour: [],
      parts: [],
      fixed: [item],
      outside: [{ ...item, key: "weld" }],
    });
    expect(quote.lines.map((l) => [l.kind, l.netMinor, l.costMinor])).toEqual([
      ["fixed", 64_900, 30_000],
      ["outside", 64_900, 30_000],
    ]);
  });

  it("warns of a margin below the minimum, a part without cost, and a sale below cost", () => {
    expect(priceQuote({ ...FACTS, minimumMarginBp: 6000 }).warnings).toEqual([
      "The margin of 57.16 % is below the shop's minimum of 60 %.",
    ]);
    const noCost = priceQuote({ ...FACTS, parts: [part("OLD", { unitCostE4: null, unitPriceE4: 50_000 })] });
    expect([noCost.marginBp, noCost.warnings]).toEqual([
      null,
      ["Part OLD (OLD) has no cost, so the margin is unknown."],
    ]);
    expect(priceQuote({ ...FACTS, parts: [part("LOSS", { unitPriceE4: 50_000 })] }).warnings).toEqual([
      "Part LOSS (LOSS) is sold below its cost.",
    ]);
  });

  it("names a part that stands at nothing for want of a price or a band", () => {
    const bands = [{ upToE4: 100, markupBp: 5000 }];
    const quote = priceQuote({
      ...FACTS,
      parts: [part("NEW", { unitCostE4: null }), part("DEAR")],
      markupBands: bands,
    });
    expect(quote.unpriced).toEqual(["NEW", "DEAR"]);
    expect(quote.lines.slice(1).map((l) => l.netMinor)).toEqual([0, 0]);
    expect(quote.warnings[0]).toContain("Part NEW has no price");
  });

  it("prices nothing as nothing", () => {
    const quote = priceQuote({ ...FACTS, labour: [], parts: [], sundriesBp: 500, discountBp: 500 });
    expect([quote.lines, quote.grossMinor, quote.taxes, quote.marginBp]).toEqual([[], 0, [], null]);
  });

  it("refuses quantities that cannot be, naming them", () => {
    expect(() => priceQuote({ ...FACTS, labour: [labour(-5)] })).toThrow(OutOfRange);
    expect(() => priceQuote({ ...FACTS, labour: [labour(Number.NaN)] })).toThrow("minutes of");
    expect(() => priceQuote({ ...FACTS, parts: [part("X", { unitPriceE4: -1 })] })).toThrow("price of");
    expect(() => priceQuote({ ...FACTS, discountBp: 10_001 })).toThrow("discount is 100.01");
    expect(() => priceQuote({ ...FACTS, currency: "ZZZ" })).toThrow(Refusal);
    expect(() => priceQuote({ ...FACTS, taxRegime: "eu" })).toThrow("not entered");
  });

  it("takes the lowest band that reaches the cost", () => {
    expect(markupBand(FACTS.markupBands, 100_000)?.markupBp).toBe(8000);
    expect(markupBand(FACTS.markupBands, 100_001)?.markupBp).toBe(3000);
    expect(markupBand([], 1)).toBeNull();
  });
});

const count = (max: number) => fc.integer({ min: 0, max });
const anyFixed = fc.record({
  key: fc.uuid(),
  name: fc.constant("Fixed"),
  priceMinor: count(500_000),
  costMinor: count(300_000),
});
const anyFacts: fc.Arbitrary<PriceFacts> = fc
  .record({
    currency: fc.constantFrom("AUD", "NOK", "JPY", "KWD"),
    pricesIncludeTax: fc.boolean(),
    tax: fc.constantFrom(
      { taxRegime: "au" },
      { taxRegime: "nz" },
      { taxRegime: "no" },
      { taxRegime: "none" },
      { taxRegime: "us", taxRates: { standardBp: 825, taxed: { labour: false } } },
      { taxRegime: "us", taxRates: { standardBp: 700, taxed: { outside: false, sundries: false } } },
      { taxRegime: "eu", taxRates: { standardBp: 1900 } },
    ),
    labour: fc.array(
      fc
        .record({ minutes: count(600), ratePerHourMinor: count(30_000), costPerHourMinor: count(15_000) })
        .map((l) => ({ ...labour(0), ...l })),
      { maxLength: 5 },
    ),
    parts: fc.array(
      fc
        .record({
          quantityMilli: count(20_000),
          unitCostE4: fc.option(count(3_000_000)),
          unitPriceE4: fc.option(count(5_000_000)),
        })
        .map((p) => part("P", p)),
      { maxLength: 8 },
    ),
    fixed: fc.array(anyFixed, { maxLength: 2 }),
    outside: fc.array(anyFixed, { maxLength: 3 }),
    byHand: fc.array(anyFixed, { maxLength: 3 }),
    lineShares: fc.array(fc.record({ at: count(30), bp: count(10_000) }), { maxLength: 3 }),
    amountOffMinor: fc.oneof(fc.constant(0), count(200_000)),
    roundDownToMinor: fc.constantFrom(0, 5, 100, 500, 1000),
    sundriesBp: count(1000),
    sundriesMaxMinor: fc.option(count(5000)),
    discountBp: fc.oneof(fc.constant(0), count(10_000)),
  })
  .map(({ tax, lineShares, ...rest }) => {
    const parts = rest.parts.map((p, at) => ({ ...p, code: `P-${at}` }));
    const work = rest.labour.map((l, at) => ({ ...l, key: `work-${at}` }));
    const keys = [
      ...work.map((l) => l.key),
      ...parts.map((p) => p.code),
      ...[...rest.fixed, ...rest.outside, ...rest.byHand].map((f) => f.key),
    ];
    // One share at most for each line, as the quote's form has it.
    const shares = new Map(lineShares.map(({ at, bp }) => [keys[at % Math.max(1, keys.length)], bp]));
    const lineDiscounts = [...shares].flatMap(([line, bp]) => (line ? [{ line, bp, why: "agreed" }] : []));
    return { ...FACTS, ...rest, labour: work, parts, lineDiscounts, ...tax };
  });

/** Ten thousand of something take two seconds, and many times that on a machine that does other work. */
const LONG_MS = 180_000;

describe("any quote", () => {
  it(
    `has the totals that exact whole-number arithmetic gives, on ${RUNS} of them`,
    () => {
      fc.assert(
        fc.property(anyFacts, (facts) => {
          const { netMinor, taxMinor, grossMinor, costMinor, lines } = priceQuote(facts);
          const exact = exactQuote(facts);
          expect({ netMinor, taxMinor, grossMinor, costMinor }).toEqual(exact.totals);
          expect(lines.map((l) => l.shownMinor)).toEqual(exact.shown);
        }),
        { numRuns: RUNS },
      );
    },
    LONG_MS,
  );

  it(
    `adds up as dinero.js adds up the lines it shows, on ${RUNS} of them`,
    () => {
      const money = {
        AUD: theirCurrencies.AUD,
        NOK: theirCurrencies.NOK,
        JPY: theirCurrencies.JPY,
        KWD: theirCurrencies.KWD,
      };
      fc.assert(
        fc.property(anyFacts, (facts) => {
          const { lines, pricesIncludeTax, netMinor, taxMinor, grossMinor } = priceQuote(facts);
          const currency = money[facts.currency as keyof typeof money];
          const digits = currency.exponent;
          const none = dinero({ amount: 0, currency });
          const summed = (of: readonly number[]) =>
            of.reduce((sum, amount) => theirAdd(sum, dinero({ amount, currency })), none);
          // Exclusive: the tax on what a rate shows. Inclusive: the net of each line is frozen, and the rest is tax.
          let tax = none;
          for (const rate of new Set(lines.map((l) => l.taxRateBp))) {
            const shown = summed(lines.filter((l) => l.taxRateBp === rate).map((l) => l.shownMinor));
            tax = theirAdd(
              tax,
              pricesIncludeTax
                ? theirSubtract(
                    shown,
                    summed(lines.filter((l) => l.taxRateBp === rate).map((l) => l.netMinor)),
                  )
                : transformScale(theirMultiply(shown, { amount: rate, scale: 4 }), digits, halfAwayFromZero),
            );
          }
          const net = summed(lines.map((l) => l.netMinor));
          const minor = (d: typeof net) =>
            toSnapshot(transformScale(d, digits, halfAwayFromZero)).amount || 0;
          expect([minor(net), minor(tax), minor(theirAdd(net, tax))]).toEqual([
            netMinor,
            taxMinor,
            grossMinor,
          ]);
        }),
        { numRuns: RUNS },
      );
    },
    LONG_MS,
  );

  it("conserves cents and does not depend on the order of its facts", () => {
    fc.assert(
      fc.property(anyFacts, (facts) => {
        const quote = priceQuote(facts);
        expect(quote.lines.reduce((sum, l) => sum + l.netMinor, 0)).toBe(quote.netMinor);
        expect(quote.taxes.reduce((sum, t) => sum + t.taxMinor, quote.netMinor)).toBe(quote.grossMinor);
        if (facts.pricesIncludeTax) {
          expect(quote.lines.reduce((sum, l) => sum + l.shownMinor, 0)).toBe(quote.grossMinor);
        }
        const turned = priceQuote({
          ...facts,
          labour: facts.labour.toReversed(),
          parts: facts.parts.toReversed(),
          outside: facts.outside.toReversed(),
          fixed: facts.fixed.toReversed(),
          markupBands: facts.markupBands.toReversed(),
        });
        expect([turned.netMinor, turned.taxes, turned.marginBp]).toEqual([
          quote.netMinor,
          quote.taxes,
          quote.marginBp,
        ]);
      }),
    );
  });

  it("is mirrored exactly by its credit note, and adds up the same as an invoice", () => {
    fc.assert(
      fc.property(anyFacts, count(1000), (facts, prepaid) => {
        const quote = priceQuote(facts);
        const invoice = invoiceTotals(quote, prepaid, 2);
        expect([invoice.netMinor, invoice.grossMinor, invoice.taxes]).toEqual([
          quote.netMinor,
          quote.grossMinor,
          quote.taxes,
        ]);
        expect(invoice.dueMinor).toBe(quote.grossMinor - prepaid + 2);
        const credit = invoiceTotals({ ...quote, lines: creditOf(quote.lines) });
        expect([credit.netMinor, credit.taxMinor, credit.grossMinor]).toEqual(
          [quote.netMinor, quote.taxMinor, quote.grossMinor].map((v) => 0 - v),
        );
        expect(creditOf(creditOf(quote.lines))).toEqual(quote.lines);
      }),
    );
  });

  it("prints a net price per line that gives its net amount exactly (BT-146 / BT-149 x BT-129 = BT-131)", () => {
    fc.assert(
      fc.property(anyFacts, (facts) => {
        const { lines, currency } = priceQuote(facts);
        for (const line of lines.filter((l) => l.quantityMilli !== 0)) {
          const { priceE4, baseQuantityMilli } = netPriceOf(line, currency);
          expect(priceE4).toBeGreaterThanOrEqual(0);
          const input = {
            price: `${priceE4}e-4`,
            quantity: `${line.quantityMilli}e-3`,
            baseQuantity: `${baseQuantityMilli}e-3`,
          };
          expect(lineNet(input, currency)).toBe(line.netMinor);
        }
      }),
    );
  });

  it("shows the same net, tax and gross when its gross is entered as one price with tax", () => {
    fc.assert(
      fc.property(count(10_000_000), fc.constantFrom("au", "nz", "gb", "no"), (priceMinor, taxRegime) => {
        const item = { key: "all", name: "All", priceMinor, costMinor: 0 };
        const empty = { ...FACTS, taxRegime, labour: [], parts: [] };
        const without = priceQuote({ ...empty, fixed: [item] });
        const fixed = [{ ...item, priceMinor: without.grossMinor }];
        const withTax = priceQuote({ ...empty, pricesIncludeTax: true, fixed });
        expect([withTax.netMinor, withTax.taxes]).toEqual([without.netMinor, without.taxes]);
      }),
    );
  });
});

describe("deposits and margins", () => {
  it("take a share or an amount, never more than the total", () => {
    expect(deposit(12_345, { percentBp: 3000 })).toBe(3704);
    expect(deposit(12_345, { amountMinor: 5000 })).toBe(5000);
    expect(deposit(4000, { amountMinor: 5000 })).toBe(4000);
    expect(() => deposit(4000, { amountMinor: -1 })).toThrow(Refusal);
    expect(() => deposit(4000, { percentBp: 10_100 })).toThrow(OutOfRange);
  });

  it("are a share of net, unknown without a cost or a price", () => {
    expect(marginBp(20_000, 15_000)).toBe(2500);
    expect(marginBp(10_000, 12_000)).toBe(-2000);
    expect([marginBp(0, 100), marginBp(100, null)]).toEqual([null, null]);
    expect(majorText(deposit(100, { percentBp: 10_000 }), "AUD")).toBe("1.00");
  });
});
