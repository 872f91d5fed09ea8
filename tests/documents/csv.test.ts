import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { invoicesCsv, toCsv } from "@/lib/documents/csv";
import { invoiceSample } from "./samples";

const strict = (text: string) =>
  parse(text, { columns: true, bom: true, record_delimiter: "\r\n" }) as Record<string, string>[];

describe("the invoices as CSV", () => {
  it("are read back by a strict reader, amounts exact, a credit note's below zero", () => {
    const doc = invoiceSample("AU", 0, 0);
    const rows = strict(
      invoicesCsv([
        { doc, paidMinor: 500, creditedBy: null },
        {
          doc: {
            ...doc,
            kind: "creditNote",
            number: 301,
            grossMinor: -1230,
            credits: { number: 2001, issuedOn: doc.issuedOn, reason: "x" },
          },
          paidMinor: 0,
          creditedBy: null,
        },
      ]),
    );
    expect(rows.map((row) => [row.kind, row.number, row.gross, row.paid, row.credits])).toEqual([
      ["invoice", "2001", (doc.grossMinor / 100).toFixed(2), "5.00", ""],
      ["credit note", "301", "-12.30", "0.00", "2001"],
    ]);
  });

  it("hold no formula: a name that begins as one is text", () => {
    const doc = invoiceSample("AU");
    const nasty = ['=HYPERLINK("http://x")', "+1", "@sum", "-1+1", "\tx", 'a,"b"\r\nc'];
    const rows = strict(
      invoicesCsv(
        nasty.map((name) => ({
          doc: { ...doc, buyer: { ...doc.buyer, name } },
          paidMinor: 0,
          creditedBy: null,
        })),
      ),
    );
    expect(rows.map((row) => row.customer)).toEqual([
      '\'=HYPERLINK("http://x")',
      "'+1",
      "'@sum",
      "'-1+1",
      "'\tx",
      'a,"b"\r\nc',
    ]);
    expect(toCsv(["a"], [["-12.30"], [-4]])).toBe("\uFEFFa\r\n-12.30\r\n-4\r\n");
  });
});
