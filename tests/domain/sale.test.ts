import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { handOver } from "@/lib/domain/invoices/handOver";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { creditOf } from "@/lib/domain/pricing/invoice";
import { priceSale, type SaleRules } from "@/lib/domain/pricing/sale";
import { receiptRequirements } from "@/lib/domain/tax/receipts";
import { TAX_REGIMES } from "@/lib/domain/tax/regimes";

const AUD: SaleRules = {
  currency: "AUD",
  locale: "en-AU",
  pricesIncludeTax: true,
  taxRegime: "au",
  discountBp: 0,
  discountWhy: "",
};
const NOK: SaleRules = {
  ...AUD,
  currency: "NOK",
  locale: "nb-NO",
  pricesIncludeTax: false,
  taxRegime: "no",
};

const sold = fc
  .array(
    fc.record({
      quantityMilli: fc.integer({ min: 1, max: 50_000 }),
      unitPriceE4: fc.integer({ min: 0, max: 5_000_000 }),
      discountBp: fc.integer({ min: 0, max: 10_000 }),
      taxMark: fc.constantFrom("" as const, "Z" as const, "E" as const),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((parts) => parts.map((part, at) => ({ ...part, code: `P-${at}`, name: `Part ${at}`, unit: "each" })));

describe("a counter sale's price", () => {
  it("is the sum of its lines, in every regime's way of showing prices, and mirrored by its credit", () => {
    fc.assert(
      fc.property(
        sold,
        fc.constantFrom(AUD, NOK),
        fc.integer({ min: 0, max: 10_000 }),
        (parts, rules, discountBp) => {
          const priced = priceSale(parts, { ...rules, discountBp });
          const sum = (of: "netMinor" | "shownMinor") =>
            priced.lines.reduce((total, line) => total + line[of], 0);
          // EN 16931 BR-CO-10 and BR-CO-15.
          expect(priced.netMinor).toBe(sum("netMinor"));
          expect(priced.grossMinor).toBe(priced.netMinor + priced.taxMinor);
          if (rules.pricesIncludeTax) expect(priced.grossMinor).toBe(sum("shownMinor"));
          expect(priced.grossMinor).toBeGreaterThanOrEqual(0);
          const back = invoiceTotals({ ...priced, lines: creditOf(priced.lines) });
          expect([back.netMinor, back.taxMinor, back.grossMinor]).toEqual(
            [priced.netMinor, priced.taxMinor, priced.grossMinor].map((minor) => 0 - minor),
          );
        },
      ),
    );
  });
});

describe("money handed over at the counter", () => {
  const dues = fc.integer({ min: 1, max: 10_000_000 });
  const steps = fc.constantFrom(0, 1, 5, 10, 100);

  it("in cash is whole coins, at most half a coin off, and change is what was given less what is paid", () => {
    fc.assert(
      fc.property(dues, steps, fc.integer({ min: 0, max: 10_000_000 }), (due, step, more) => {
        const coin = Math.max(1, step);
        const exact = handOver(due, "cash", null, step, AUD);
        expect(exact.amountMinor % coin).toBe(0);
        expect(Math.abs(exact.roundingMinor) * 2).toBeLessThanOrEqual(coin);
        expect(exact.amountMinor - exact.roundingMinor).toBe(due);
        expect(exact.settlesMinor).toBe(due);
        const given = handOver(due, "cash", exact.amountMinor + more, step, AUD);
        expect(given.changeMinor).toBe(more);
        expect(given.givenMinor - given.changeMinor - given.roundingMinor).toBe(due);
        if (exact.amountMinor > 0)
          expect(() => handOver(due, "cash", exact.amountMinor - 1, step, AUD)).toThrow(/less than/);
      }),
    );
  });

  it("by card or transfer is due to the cent, without change", () => {
    fc.assert(
      fc.property(dues, steps, fc.constantFrom("card" as const, "transfer" as const), (due, step, method) => {
        expect(handOver(due, method, null, step, NOK)).toMatchObject({
          amountMinor: due,
          roundingMinor: 0,
          givenMinor: due,
          changeMinor: 0,
        });
      }),
    );
  });

  it("follows the Reserve Bank of Australia's table for 5 cents: 9.82 is 9.80, 9.83 is 9.85", () => {
    expect(handOver(982, "cash", 1000, 5, AUD)).toMatchObject({ amountMinor: 980, changeMinor: 20 });
    expect(handOver(983, "cash", 1000, 5, AUD)).toMatchObject({ amountMinor: 985, changeMinor: 15 });
  });
});

describe("a receipt in place of an invoice", () => {
  it("is allowed up to each regime's limit and not a cent beyond", () => {
    // Limits as lib/domain/tax/receipts.ts names their sources; all from memory.
    for (const [regime, currency, most] of [
      ["au", "AUD", 99_999],
      ["nz", "NZD", 100_000],
      ["gb", "GBP", 25_000],
      ["no", "NOK", 4_000_000],
      ["eu", "EUR", 10_000],
    ] as const) {
      expect(receiptRequirements(regime, most, currency).allowed, regime).toBe(true);
      expect(receiptRequirements(regime, most + 1, currency).allowed, regime).toBe(false);
      expect(receiptRequirements(regime, 1, "XAF").allowed, regime).toBe(false);
    }
    for (const regime of ["us", "entered", "none"])
      expect(receiptRequirements(regime, 1e9, "USD").allowed, regime).toBe(true);
  });

  it("names the seller and the amount in every regime, and never a buyer", () => {
    for (const { key } of TAX_REGIMES) {
      const { fields } = receiptRequirements(key, 100, "AUD");
      expect(fields).toEqual(expect.arrayContaining(["sellerName", "issueDate", "description", "gross"]));
      expect(fields).not.toContain("buyerIdentity");
    }
  });
});
