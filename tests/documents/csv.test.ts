import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { invoicesCsv, invoicesCsvParts, toCsv } from "@/lib/documents/csv";
import { invoiceSample } from "./samples";

const strict = (text: string) =>
  parse(text, { columns: true, bom: true, record_delimiter: "\r\n" }) as Record<string, string>[];

describe("the invoices as CSV", () => {
  it("are read back by a strict reader, amounts exact, a credit note's below zero", () => {
    const doc = invoiceSample("AU", 0, 0);
    const rows = strict(
      invoicesCsv([
        { doc, paidMinor: 500, creditedBy: null, writtenOffMinor: 0 },
        {
          doc: {
            ...doc,
            kind: "creditNote",
            number: 301,
            written: "301",
            grossMinor: -1230,
            credits: { kind: "invoice", written: "2001", number: 2001, issuedOn: doc.issuedOn, reason: "x" },
          },
          paidMinor: 0,
          creditedBy: null,
          writtenOffMinor: 0,
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
          writtenOffMinor: 0,
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

  it("are the same text when sent in parts, also where there is none", async () => {
    const doc = invoiceSample("AU", 0, 0);
    const many = Array.from({ length: 230 }, (_, n) => ({
      doc: { ...doc, number: n, buyer: { ...doc.buyer, name: n === 100 ? "=1" : doc.buyer.name } },
      paidMinor: n,
      creditedBy: null,
      writtenOffMinor: 0,
    }));
    for (const invoices of [[], many.slice(0, 1), many.slice(0, 100), many]) {
      async function* each() {
        yield* invoices;
      }
      let text = "";
      for await (const part of invoicesCsvParts(each())) text += part;
      expect(text).toBe(invoicesCsv(invoices));
    }
  });

  it("hold no formula behind blanks, line ends, marks or full-width signs", () => {
    const signs = ["=", "+", "-", "@", "\uFF1D", "\uFF0B", "\uFF0D", "\uFF20", "\u2212"];
    const before = [
      "",
      " ",
      "   ",
      "\t",
      "\n",
      "\r\n",
      "\r",
      "\u00A0",
      "\u3000",
      "\u200B",
      "\uFEFF",
      "\u0000",
      '"',
      "'",
    ];
    const cells = signs.flatMap((sign) => before.map((blank) => `${blank}${sign}cmd|' /C calc'!A0`));
    const rows = parse(
      toCsv(
        ["a", "b"],
        cells.map((cell) => [cell, "x"]),
      ),
      {
        bom: true,
        from_line: 2,
        record_delimiter: "\r\n",
      },
    ) as string[][];
    expect(rows.map(([cell]) => cell)).toEqual(cells.map((cell) => `'${cell}`));
  });

  it("leave plain words and numbers as they are", () => {
    const cells = [
      "Main jet 142",
      "a=b",
      "x-1",
      "1 + 1",
      "-12.30",
      "-4",
      "a@saltpan.example",
      "  two",
      "12",
      "",
      "blå",
    ];
    const rows = parse(
      toCsv(
        ["a", "b"],
        cells.map((cell) => [cell, "x"]),
      ),
      { bom: true, from_line: 2 },
    ) as string[][];
    expect(rows.map(([cell]) => cell)).toEqual(cells);
  });

  it("treat a heading like any cell", () => {
    expect(toCsv(["=1+1", "b"], [])).toContain("'=1+1");
  });
});
