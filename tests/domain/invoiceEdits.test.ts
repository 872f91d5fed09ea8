import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { editedLines, type InvoiceEdit, typedOf } from "@/lib/domain/invoices/edits";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { priceSale } from "@/lib/domain/pricing/sale";

const NO_SIDES = { fixed: null, asWorked: null };
const rulesOf = (pricesIncludeTax: boolean) => ({
  currency: "AUD",
  locale: "en-AU",
  pricesIncludeTax,
  taxRegime: "au",
  markupBands: [],
});
const priced = (
  parts: readonly { quantityMilli: number; unitPriceE4: number; discountBp: number }[],
  inclusive: boolean,
) =>
  priceSale(
    parts.map((part, at) => ({ ...part, code: `P-${at}`, name: `Part ${at}`, unit: "each" })),
    { ...rulesOf(inclusive), discountBp: 0, discountWhy: "" },
  ).lines;
const someParts = fc.array(
  fc.record({
    quantityMilli: fc.integer({ min: 1, max: 20_000 }),
    unitPriceE4: fc.integer({ min: 0, max: 3_000_000 }),
    discountBp: fc.constantFrom(0, 500, 1250),
  }),
  { minLength: 1, maxLength: 8 },
);

describe("lines changed by hand", () => {
  it("are the very lines where nothing was changed", () => {
    const lines = priced([{ quantityMilli: 3000, unitPriceE4: 33_333, discountBp: 1000 }], true);
    expect(editedLines(lines, [], NO_SIDES, rulesOf(true))).toBe(lines);
  });

  it("typed as they stand come to the same total, and any typed anew add up to the document", () => {
    fc.assert(
      fc.property(someParts, fc.boolean(), fc.integer({ min: 0, max: 7 }), (parts, inclusive, which) => {
        const lines = priced(parts, inclusive);
        const total = (of: typeof lines) => invoiceTotals({ lines: of, pricesIncludeTax: inclusive });
        const line = lines.filter((one) => one.kind === "part")[which % parts.length];
        if (!line) return;
        const edit = (more: object): InvoiceEdit => ({
          key: line.key,
          act: "change",
          line: { ...typedOf(line, lines), ...more },
          reason: "why",
          by: "Petra Voss",
        });
        const part = parts[which % parts.length];
        const same = editedLines(
          lines,
          [edit({ discountBp: part?.discountBp ?? 0 })],
          NO_SIDES,
          rulesOf(inclusive),
        );
        expect(total([...same]).grossMinor).toBe(total([...lines]).grossMinor);
        const anew = editedLines(
          lines,
          [edit({ quantityMilli: 7000, unitPriceE4: 12_345 })],
          NO_SIDES,
          rulesOf(inclusive),
        );
        // EN 16931 BR-CO-10 and BR-CO-15; with tax in the prices the total is what is shown.
        const { netMinor, taxMinor, grossMinor } = total([...anew]);
        expect(netMinor).toBe(anew.reduce((sum, one) => sum + one.netMinor, 0));
        expect(grossMinor).toBe(netMinor + taxMinor);
        if (inclusive) expect(grossMinor).toBe(anew.reduce((sum, one) => sum + one.shownMinor, 0));
      }),
    );
  });

  it("are refused where the line that was typed over is gone", () => {
    const lines = priced([{ quantityMilli: 1000, unitPriceE4: 10_000, discountBp: 0 }], true);
    const [line] = lines;
    if (!line) throw new Error("no line");
    const edit: InvoiceEdit = {
      key: "gone",
      act: "change",
      line: typedOf(line, lines),
      reason: "why",
      by: "Petra Voss",
    };
    expect(() => editedLines(lines, [edit], NO_SIDES, rulesOf(true))).toThrow(/is gone from the job now/);
  });
});
