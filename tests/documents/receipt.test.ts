import { describe, expect, it } from "vitest";
import { dayText } from "@/lib/documents/format";
import { invoicePdf, sheetPdf } from "@/lib/documents/invoice";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { formatMoney } from "@/lib/domain/money/format";
import { receiptRequirements } from "@/lib/domain/tax/receipts";
import type { InvoiceField } from "@/lib/domain/tax/requirements";
import { pdfText } from "../support/pdfText";
import { receiptSample } from "./samples";

/** A receipt of two rates, as one with tax in its prices: 10.00 at 20 % and 5.00 at none, by hand. */
function british(): PrintedInvoice {
  const doc = receiptSample("AU");
  const [jet] = doc.lines;
  if (!jet) throw new Error("A receipt of nothing.");
  const line = { ...jet, quantityMilli: 1000 };
  return {
    ...doc,
    title: "VAT receipt",
    taxRegime: "gb",
    currency: "GBP",
    locale: "en-GB",
    seller: { ...doc.seller, numberName: "VAT number", taxNumber: "GB 980 7806 84" },
    lines: [
      { ...line, key: "a", unitPriceE4: 100_000, shownMinor: 1000, netMinor: 833, taxRateBp: 2000 },
      {
        ...line,
        key: "b",
        name: "Manual",
        unitPriceE4: 50_000,
        shownMinor: 500,
        netMinor: 500,
        taxRateBp: 0,
      },
    ],
    taxes: [
      { category: "S", rateBp: 2000, name: "VAT 20 %", taxableMinor: 833, taxMinor: 167 },
      { category: "Z", rateBp: 0, name: "VAT 0 %", taxableMinor: 500, taxMinor: 0 },
    ],
    netMinor: 1333,
    taxMinor: 167,
    grossMinor: 1500,
    settlements: [],
  };
}

/** What stands on paper for each thing that a law asks for. */
function said(doc: PrintedInvoice): Partial<Record<InvoiceField, readonly string[]>> {
  const money = (minor: number) => formatMoney(minor, doc.currency, doc.locale);
  const { seller } = doc;
  return {
    title: [doc.title],
    number: [doc.written],
    issueDate: [dayText(doc.issuedOn, doc.locale)],
    supplyDate: [dayText(doc.supplyOn, doc.locale)],
    sellerName: [seller.legalName],
    sellerAddress: seller.address.split("\n"),
    sellerNumber: [seller.taxNumber],
    description: doc.lines.filter((line) => line.kind === "part").map((line) => line.name),
    quantity: [String((doc.lines[0]?.quantityMilli ?? 0) / 1000)],
    rates: doc.taxes.map((tax) => `${tax.rateBp / 100} %`),
    taxAmount: doc.taxes.map((tax) => money(tax.taxMinor)),
    taxedExtent: doc.taxes.map((tax) => money(tax.taxableMinor)),
    grossPerRate: doc.taxes.map((tax) => money(tax.taxableMinor + tax.taxMinor)),
    gross: [money(doc.grossMinor)],
  };
}

const plain = (text: string) => text.replace(/[\s\u00a0\u202f]+/gu, "");

describe("a receipt on a roll and on a sheet", () => {
  const docs: readonly (readonly [string, PrintedInvoice])[] = [
    ["Australia", receiptSample("AU")],
    ["Norway", receiptSample("NO")],
    ["New Zealand", { ...receiptSample("AU"), taxRegime: "nz", currency: "NZD", title: "Receipt" }],
    ["the United Kingdom", british()],
  ];
  for (const [where, doc] of docs)
    it(`carries all that its regime's receipt must show, in ${where}`, async () => {
      // The fullest tier of the regime's receipt: what less is needed for is there as well.
      const { fields } = receiptRequirements(doc.taxRegime, 10 ** 12, doc.currency);
      for (const print of [invoicePdf, sheetPdf]) {
        const text = plain(await pdfText(await print(doc)));
        for (const field of fields) {
          const texts = said(doc)[field];
          expect(texts, field).toBeDefined();
          for (const one of texts ?? []) expect(text, field).toContain(plain(one));
        }
      }
    });

  it("says the total with tax of each rate where there are two and the law asks for it, and nowhere else", async () => {
    // VAT Regulations 1995, reg 16A (e): for each rate, the gross amount payable including VAT.
    expect(plain(await pdfText(await invoicePdf(british())))).toContain("withVAT20%inall£10.00");
    const elsewhere = { ...british(), taxRegime: "eu", currency: "EUR" };
    expect(plain(await pdfText(await invoicePdf(elsewhere)))).not.toContain("inall");
  });

  it("on a sheet has the paper's head and page, names a return as one, and is the same file each time", async () => {
    const back = receiptSample("NO", true);
    const [first, again] = [await sheetPdf(back), await sheetPdf(back)];
    expect(Buffer.from(first).equals(Buffer.from(again))).toBe(true);
    const text = plain(await pdfText(first));
    for (const one of [
      "Returkvittering301FjellrevMotor",
      "Gjeldersalgskvittering501",
      "side1av1",
      "Wrongsize",
    ])
      expect(text).toContain(one);
  });
});
