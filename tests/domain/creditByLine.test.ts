import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { creditableLines } from "@/lib/domain/invoices/creditable";
import { askForRest, type CreditAsk, creditOfPart } from "@/lib/domain/invoices/creditLines";
import { keptLines } from "@/lib/domain/invoices/kept";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { priceSale, type SoldPart } from "@/lib/domain/pricing/sale";
import { Refusal } from "@/lib/domain/refusal";
import { invoiceSample } from "../documents/samples";

const AUD = { currency: "AUD", locale: "en-AU", pricesIncludeTax: true, taxRegime: "au" };
const NOK = { currency: "NOK", locale: "nb-NO", pricesIncludeTax: false, taxRegime: "no" };

type Sold = Omit<SoldPart, "code" | "name" | "unit">;

/** An issued invoice of parts, with what comes off lines and off the whole. */
function invoiceOf(parts: readonly Sold[], regime: typeof AUD, discountBp = 0): PrintedInvoice {
  const sold = parts.map((part, at) => ({ ...part, code: `P-${at}`, name: `Part ${at}`, unit: "each" }));
  const { lines } = priceSale(sold, { ...regime, discountBp, discountWhy: "club" });
  const totals = invoiceTotals({ ...regime, lines });
  const { taxes, netMinor, taxMinor, grossMinor, dueMinor } = totals;
  const printed = lines.map(({ costMinor: _, ...line }) => line);
  return {
    ...invoiceSample(regime.taxRegime === "no" ? "NO" : "AU"),
    ...regime,
    lines: printed,
    taxes,
    netMinor,
    taxMinor,
    grossMinor,
    dueMinor,
  };
}

/** The credit note of a part, as a document that later ones come after. */
const noteOf = (
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
  ask: CreditAsk,
): PrintedInvoice => ({
  ...invoice,
  kind: "creditNote",
  ...creditOfPart(invoice, credits, ask),
});

const sold = (quantityMilli: number, unitPriceE4: number, more: Partial<Sold> = {}): Sold => ({
  quantityMilli,
  unitPriceE4,
  discountBp: 0,
  ...more,
});

const anyPart: fc.Arbitrary<Sold> = fc.record({
  quantityMilli: fc.integer({ min: 1, max: 20 }).map((pieces) => pieces * 500),
  unitPriceE4: fc.integer({ min: 100, max: 3_000_000 }),
  discountBp: fc.constantFrom(0, 0, 500, 1250),
  taxMark: fc.constantFrom("" as const, "" as const, "Z" as const, "E" as const),
});
const regimes = fc.constantFrom(AUD, NOK);
const offs = fc.constantFrom(0, 333, 1000);

/** One step of a series: which line, how much of it in thousandths of what is left, and by which way. */
const step = fc.record({
  line: fc.nat({ max: 50 }),
  share: fc.integer({ min: 1, max: 1000 }),
  by: fc.constantFrom("quantity" as const, "amount" as const, "whole" as const),
});

function askOf(
  invoice: PrintedInvoice,
  credits: readonly PrintedInvoice[],
  { line, share, by }: { line: number; share: number; by: "quantity" | "amount" | "whole" },
): CreditAsk {
  const left = creditableLines(invoice, credits).filter((one) => one.leftMinor > 0);
  const all = left.reduce((sum, one) => sum + one.leftMinor, 0);
  const of = (most: number) => Math.max(1, Math.floor((most * share) / 1000));
  const one = left[line % Math.max(1, left.length)];
  if (by === "whole" || !one) return { wholeMinor: of(all) };
  const { key } = one.line;
  return {
    lines: [
      by === "amount" ? { key, amountMinor: of(one.leftMinor) } : { key, quantityMilli: of(one.leftMilli) },
    ],
  };
}

/** A series of credit notes; what comes to nothing is left out of it. */
function series(invoice: PrintedInvoice, steps: Parameters<typeof askOf>[2][]): PrintedInvoice[] {
  const credits: PrintedInvoice[] = [];
  const add = (ask: CreditAsk) => {
    try {
      credits.push(noteOf(invoice, credits, ask));
    } catch (cause) {
      if (!(cause instanceof Refusal)) throw cause;
    }
  };
  for (const one of steps) add(askOf(invoice, credits, one));
  return credits;
}

const sum = (numbers: readonly number[]) => numbers.reduce((total, one) => total + one, 0);

describe("credit by line", () => {
  it("takes one of two at the price after what came off, with the tax of that part", () => {
    // 2 x 55.00 with 10 % off: 99.00 with tax, 49.50 for one, of which 4.50 is GST (1/11th).
    const invoice = invoiceOf([sold(2000, 550_000, { discountBp: 1000 }), sold(1000, 100_000)], AUD);
    const one = creditOfPart(invoice, [], { lines: [{ key: "P-0", quantityMilli: 1000 }] });
    expect(one).toMatchObject({ grossMinor: -4950, taxMinor: -450, netMinor: -4500 });
    expect(one.lines).toMatchObject([
      { key: "P-0", quantityMilli: -1000, unitPriceE4: 495_000, shownMinor: -4950, netMinor: -4500 },
    ]);
    expect(one.takes).toEqual([{ key: "P-0", quantityMilli: 1000, shownMinor: 4950 }]);
  });

  it("takes labour by the minute, not by its rounded hours", () => {
    const invoice = invoiceOf([sold(1000, 1_320_000)], AUD);
    const hour = {
      ...invoice,
      lines: invoice.lines.map((line) => ({ ...line, kind: "labour" as const, unit: "h" })),
    };
    // 132.00 an hour: one minute, printed as 0.017 h, is 2.20.
    expect(creditOfPart(hour, [], { lines: [{ key: "P-0", quantityMilli: 17 }] })).toMatchObject({
      grossMinor: -220,
    });
  });

  it("in NOK puts 25 % on top, and takes an amount off a line as one of it", () => {
    const invoice = invoiceOf([sold(2000, 1_000_000)], NOK);
    const off = creditOfPart(invoice, [], { lines: [{ key: "P-0", amountMinor: 3333 }] });
    // 33.33 x 25 % = 8.3325.
    expect(off).toMatchObject({ netMinor: -3333, taxMinor: -833, grossMinor: -4166 });
    expect(off.lines).toMatchObject([
      { name: "Less for Part 0", quantityMilli: -1000, unitPriceE4: 333_300 },
    ]);
  });

  it("splits an amount off the whole over the tax categories by largest remainder", () => {
    const invoice = invoiceOf(
      [
        sold(1000, 1_000_000),
        sold(1000, 1_000_000, { taxMark: "Z" }),
        sold(1000, 1_000_000, { taxMark: "E" }),
      ],
      NOK,
    );
    const off = creditOfPart(invoice, [], { wholeMinor: 10_000 });
    // 100.00 over three alike: 33.34 33.33 33.33 (dinero.js 2.0.2 allocates it so).
    expect(off.lines.map((line) => line.shownMinor).sort()).toEqual([-3333, -3333, -3334]);
    expect(off.netMinor).toBe(-10_000);
  });

  it("never takes more of a line than was invoiced, and names what is left", () => {
    const invoice = invoiceOf([sold(2000, 100_000), sold(1000, 100_000)], AUD);
    const first = noteOf(invoice, [], { lines: [{ key: "P-0", quantityMilli: 1500 }] });
    const again = (ask: CreditAsk) => () => creditOfPart(invoice, [first], ask);
    expect(again({ lines: [{ key: "P-0", quantityMilli: 501 }] })).toThrow(
      /has 0.5 each left to be credited, not 0.501/,
    );
    expect(again({ lines: [{ key: "P-0", amountMinor: 501 }] })).toThrow(
      /has 5.00 AUD left to be credited, not 5.01/,
    );
    expect(again({ wholeMinor: 1501 })).toThrow(/15.00 AUD is left to be credited/);
    expect(again({ lines: [] })).toThrow(/Nothing is chosen/);
    expect(again({ lines: [{ key: "P-9", quantityMilli: 1 }] })).toThrow(/not on the invoice/);
  });

  it("leaves nothing to credit after a credit note of the whole", () => {
    const invoice = invoiceOf([sold(2000, 100_000)], AUD);
    expect(creditableLines(invoice, [{ ...invoice, kind: "creditNote" }])).toMatchObject([
      { leftMinor: 0, leftMilli: 0 },
    ]);
  });

  it("counts every charged amount once: lines after discounts add up to the invoice", () => {
    fc.assert(
      fc.property(fc.array(anyPart, { minLength: 1, maxLength: 9 }), regimes, offs, (parts, regime, off) => {
        const invoice = invoiceOf(parts, regime, off);
        const lines = creditableLines(invoice, []);
        expect(sum(lines.map((one) => one.chargedMinor))).toBe(
          sum(invoice.lines.map((line) => line.shownMinor)),
        );
        expect(lines.every((one) => one.chargedMinor >= 0)).toBe(true);
      }),
    );
  });

  it("a series that takes all equals the whole to the cent, in each tax category, in both regimes", () => {
    fc.assert(
      fc.property(
        fc.array(anyPart, { minLength: 1, maxLength: 9 }),
        regimes,
        offs,
        fc.array(step, { maxLength: 12 }),
        (parts, regime, off, steps) => {
          const invoice = invoiceOf(parts, regime, off);
          const credits = series(invoice, steps);
          for (const credit of credits) {
            expect(sum(credit.lines.map((line) => line.netMinor))).toBe(credit.netMinor);
            expect(credit.netMinor + credit.taxMinor).toBe(credit.grossMinor);
            // One minor unit at most from the rate of this note alone (BR-CO-17), and two roundings of an inclusive amount.
            for (const tax of credit.taxes)
              expect(
                Math.abs(tax.taxMinor - Math.round((tax.taxableMinor * tax.rateBp) / 10_000)),
              ).toBeLessThanOrEqual(regime.pricesIncludeTax ? 2 : 1);
          }
          const left = creditableLines(invoice, credits);
          expect(left.every((one) => one.leftMinor >= 0 && one.leftMilli >= 0)).toBe(true);
          if (left.some((one) => one.leftMinor > 0)) credits.push(noteOf(invoice, credits, askForRest(left)));
          expect(creditableLines(invoice, credits).every((one) => one.leftMinor === 0)).toBe(true);
          expect(sum(credits.map((credit) => credit.grossMinor))).toBe(0 - invoice.grossMinor);
          for (const { category, rateBp, taxableMinor, taxMinor } of invoice.taxes) {
            const own = credits
              .flatMap((credit) => credit.taxes)
              .filter((tax) => tax.category === category && tax.rateBp === rateBp);
            expect([sum(own.map((tax) => tax.taxableMinor)), sum(own.map((tax) => tax.taxMinor))]).toEqual([
              0 - taxableMinor,
              0 - taxMinor,
            ]);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it("what stays on the corrected invoice and what is credited add up to what was shown", () => {
    fc.assert(
      fc.property(
        fc.array(anyPart, { minLength: 1, maxLength: 9 }),
        regimes,
        offs,
        step,
        (parts, regime, off, one) => {
          const invoice = invoiceOf(parts, regime, off);
          const ask = askOf(invoice, [], { ...one, by: one.by === "whole" ? "amount" : one.by });
          const kept = (() => {
            try {
              return { lines: keptLines(invoice, [], ask), credit: creditOfPart(invoice, [], ask) };
            } catch (cause) {
              if (cause instanceof Refusal) return null;
              throw cause;
            }
          })();
          if (!kept) return;
          const shown = (lines: readonly { shownMinor: number }[]) =>
            sum(lines.map((line) => line.shownMinor));
          expect(shown(kept.lines) - shown(kept.credit.lines)).toBe(shown(invoice.lines));
          const totals = invoiceTotals({ ...regime, lines: kept.lines });
          expect(totals.netMinor).toBe(sum(kept.lines.map((line) => line.netMinor)));
        },
      ),
    );
  });
});
