import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { expect, it } from "vitest";
import { orderPdf } from "@/lib/documents/order";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";

const sample = (lines: number, locale = "en-AU"): OrderOnPaper => ({
  number: "93",
  state: "ordered",
  orderedOn: "2026-11-25",
  note: "Leave it at the back door.",
  supplier: {
    name: "Marl Supplies",
    address: "4 Kiln Road",
    email: "desk@marl.example",
    customerNumber: "C-1188",
  },
  lines: Array.from({ length: lines }, (_, n) => ({
    code: `m${n}`,
    quantityMilli: 2_000 + n * 1000,
    receivedMilli: 0,
    openMilli: 2_000,
    unitCostE4: 46_250,
    dueOn: "2026-12-01",
    part: { code: `RM-${n}`, name: `Main jet number ${n}`, unit: n === 0 ? "ml" : "each" },
  })),
  shop: {
    name: "Saltpan Carburettor Works",
    address: "",
    phone: "",
    email: "",
    taxNumber: "51 824 753 556",
    numberName: "ABN",
    locale,
    country: "AU",
    currency: "AUD",
  },
  day: "2026-11-25",
});

async function textOf(order: OrderOnPaper) {
  const document = await getDocument({ data: (await orderPdf(order)).slice(), verbosity: 0 }).promise;
  const pages: string[] = [];
  for (let n = 1; n <= document.numPages; n++) {
    const { items } = await (await document.getPage(n)).getTextContent();
    pages.push(
      items
        .map((item) => ("str" in item ? item.str : ""))
        .join("")
        .replace(/[\s\u00a0]/gu, ""),
    );
  }
  return pages;
}

it("a purchase order says who orders what from whom, under whose code, how much, when and at what price", async () => {
  const [page] = await textOf(sample(2));
  for (const wanted of [
    "Purchase order 93",
    "Marl Supplies",
    "C-1188",
    "25 November 2026",
    "m0",
    "RM-0",
    "2 ml",
    "3",
    "4.625",
    "1 December 2026",
    "back door",
    "Saltpan Carburettor Works ABN 51 824 753 556 Purchase order 93",
  ])
    expect(page).toContain(wanted.replace(/ /g, ""));
});

it("a long order repeats its heading on each page and numbers them", async () => {
  const pages = await textOf(sample(90));
  expect(pages.length).toBeGreaterThan(2);
  for (const [at, page] of pages.entries()) {
    expect(page).toContain("Yourcode");
    expect(page).toContain(`page${at + 1}of${pages.length}`);
  }
});

it("prices stay off the order where its lines carry none, and it speaks Norwegian where the shop does", async () => {
  const bare = sample(1, "nb-NO");
  const [page] = await textOf({ ...bare, lines: bare.lines.map((line) => ({ ...line, unitCostE4: null })) });
  expect(page).toContain("Bestilling93");
  expect(page).not.toContain("4,625");
  expect(page).not.toContain("AUD");
});
