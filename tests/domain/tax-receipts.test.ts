import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { taxRegime } from "@/lib/domain/tax/rates";
import { receiptRequirements } from "@/lib/domain/tax/receipts";
import { TAX_REGIMES } from "@/lib/domain/tax/regimes";

const fields = (key: string, gross = 100, currency = "EUR") => [
  ...receiptRequirements(key, gross, currency).fields,
];
const allowed = (key: string, gross: number, currency: string) =>
  receiptRequirements(key, gross, currency).allowed;

// What every slip of a till shows, by common practice.
const SLIP = ["number", "issueDate", "sellerName", "description", "quantity", "gross"];

describe("what a receipt must carry", () => {
  // The laws' own lists, from memory: GST Act 1999 s 29-70; GST Act 1985 s 19K; VAT Regulations 1995 reg 16A (legislation.gov.uk);
  // Bokføringsforskriften 5-3; Directive 2006/112/EC art. 226b.
  it.each([
    ["au", "Tax invoice", [...SLIP, "sellerNumber", "taxAmount", "title", "taxedExtent"]],
    ["nz", "Receipt", [...SLIP, "sellerNumber", "taxAmount"]],
    [
      "gb",
      "VAT receipt",
      [...SLIP, "sellerNumber", "taxAmount", "sellerAddress", "supplyDate", "rates", "grossPerRate"],
    ],
    ["no", "Salgskvittering", [...SLIP, "sellerNumber", "taxAmount", "supplyDate", "rates"]],
    ["eu", "Receipt", [...SLIP, "sellerNumber", "taxAmount"]],
    ["us", "Sales receipt", [...SLIP, "taxAmount"]],
    ["entered", "Receipt", [...SLIP, "sellerNumber", "taxAmount", "rates"]],
    ["none", "Receipt", SLIP],
  ])("is the law's list in %s", (key, title, list) => {
    expect(fields(key).sort()).toEqual([...list].sort());
    expect(receiptRequirements(key, 100, "EUR").title).toBe(title);
    expect(new Set(fields(key)).size).toBe(list.length);
  });

  it("says its tier, its source and the regime's note", () => {
    for (const { key } of TAX_REGIMES) {
      const said = receiptRequirements(key, 100, "EUR");
      expect(said.tier, key).toMatch(/\S \S/);
      expect(said.source, key).toMatch(/\S \S/);
      expect(said.note).toBe(taxRegime(key).note);
    }
    expect(receiptRequirements("us", 1, "USD").tier).toBe("every sale");
    expect(receiptRequirements("gb", 1, "GBP").tier).toContain("250 GBP");
  });
});

describe("a small receipt", () => {
  // The ATO's page on setting up invoices (QC 43001) and GST Act s 29-80: 75 AUD without GST is 82.50 with it. The
  // New Zealand act, s 19E: up to 200 NZD neither number nor tax. What is not required may be printed all the same.
  it("needs less: no tax invoice up to 82.50 AUD, no tax number up to 200 NZD", () => {
    expect(fields("au", 8_250, "AUD")).not.toContain("taxAmount");
    expect(fields("au", 8_251, "AUD")).toEqual(expect.arrayContaining(["taxAmount", "taxedExtent", "title"]));
    expect(fields("nz", 20_000, "NZD")).not.toContain("sellerNumber");
    expect(fields("nz", 20_001, "NZD")).toContain("sellerNumber");
    expect(receiptRequirements("au", 8_250, "AUD").tier).toContain("82.50");
    expect(receiptRequirements("nz", -20_001, "NZD").tier).toContain("1,000");
  });
});

describe("a receipt without a buyer", () => {
  // Limits as above: below 1,000 AUD; up to 1,000 NZD, 250 GBP, 40,000 NOK and 100 EUR with tax.
  it.each([
    ["au", "AUD", 99_999],
    ["nz", "NZD", 100_000],
    ["gb", "GBP", 25_000],
    ["no", "NOK", 4_000_000],
    ["eu", "EUR", 10_000],
  ])(
    "will do in %s up to its limit, for a return as for a sale, and in its own currency alone",
    (key, currency, most) => {
      expect(allowed(key, most, currency)).toBe(true);
      expect(allowed(key, most + 1, currency)).toBe(false);
      expect(allowed(key, -most, currency)).toBe(true);
      expect(allowed(key, -most - 1, currency)).toBe(false);
      expect(allowed(key, 1, "USD")).toBe(false);
      expect(allowed(key, most + 1, "USD")).toBe(false);
    },
  );

  it("will do at any total where no law sets a limit", () => {
    for (const key of ["us", "entered", "none"])
      for (const currency of ["USD", "JPY"]) expect(allowed(key, 10 ** 9, currency)).toBe(true);
  });

  it("of an unknown regime is refused", () => {
    expect(() => receiptRequirements("mars", 1, "EUR")).toThrow(Refusal);
  });
});
