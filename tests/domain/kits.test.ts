import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type KitPart, kitsFree, openKit } from "@/lib/domain/pricing/kit";
import { priceSale, type SaleRules } from "@/lib/domain/pricing/sale";

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
