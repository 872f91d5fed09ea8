import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { runsOf } from "@/lib/documents/fonts";
import { handoverPdf } from "@/lib/documents/handover";
import { invoicePdf } from "@/lib/documents/invoice";
import { jobCardPdf } from "@/lib/documents/jobCard";
import { paperSize, toPdf } from "@/lib/documents/pdf";
import { quotePdf } from "@/lib/documents/quote";
import { type SheetPaper, settingSheetPdf } from "@/lib/documents/settingSheet";
import { creditableLines } from "@/lib/domain/invoices/creditable";
import { creditOfPart } from "@/lib/domain/invoices/creditLines";
import { creditOf } from "@/lib/domain/pricing/invoice";
import { type LineSaid, saying } from "@/lib/domain/pricing/said";
import {
  cardSample,
  choicesSample,
  handoverSample,
  invoiceSample,
  quoteSample,
  receiptSample,
  sheetSample,
  twoJobsSample,
} from "./samples";

interface Read {
  readonly pages: readonly string[];
  readonly text: string;
  readonly size: readonly [number, number];
}

/** The text of a PDF as an independent reader finds it (pdf.js), spaces of all widths as one. */
async function read(pdf: Uint8Array): Promise<Read> {
  const document = await getDocument({ data: pdf.slice(), verbosity: 0 }).promise;
  const pages: string[] = [];
  let size: readonly [number, number] = [0, 0];
  for (let n = 1; n <= document.numPages; n++) {
    const page = await document.getPage(n);
    size = [Math.round(page.view[2] ?? 0), Math.round(page.view[3] ?? 0)];
    const { items } = await page.getTextContent();
    pages.push(
      items
        .map((item) => ("str" in item ? item.str : ""))
        .join(" ")
        .replace(/[\s\u00a0]+/gu, " "),
    );
  }
  return { pages, text: pages.join(" "), size };
}

const whole = (text: string) => text.replace(/ /g, "");
const has = (found: Read, ...wanted: string[]) => {
  for (const text of wanted) expect(whole(found.text)).toContain(whole(text));
};

describe("a receipt on a roll", () => {
  it("is one page 80 mm wide, as long as its lines, with tax in the prices, rounding and change in Australia", async () => {
    const found = await read(await invoicePdf(receiptSample("AU")));
    expect(found.pages).toHaveLength(1);
    // 80 mm are 226.8 points.
    expect(found.size[0]).toBe(227);
    has(found, "Tax invoice", "501", "ABN 51 824 753 556", "25 November 2026", "2 × 8.42", "16.84");
    has(found, "10 % off Bowl gasket", "$19.63", "of which GST 10 % on $17.85 without tax", "$1.78");
    has(found, "Rounding to coins", "$0.02", "Paid, cash", "$19.65", "Given", "$20.00", "Change", "$0.35");
    expect(found.text).not.toContain("Job");
  });

  it("says in Norwegian what is returned, with tax on top and whole kroner paid back", async () => {
    const found = await read(await invoicePdf(receiptSample("NO", true)));
    has(found, "Returkvittering", "301", "Gjelder salgskvittering 501", "Grunn: Wrong size");
    has(found, "MVA 25 %", "Øreavrunding", "Tilbakebetalt, kontant", "212,00 kr");
  });

  it("that a full invoice replaced is a credit note and pays nothing back", async () => {
    const doc = { ...receiptSample("AU", true), settlements: [] };
    const found = await read(await invoicePdf(doc));
    has(found, "Credit note", "Takes back receipt 501");
    expect(found.text).not.toContain("Paid back");
  });

  it("paid in two ways says each, the rounding and the change with the cash", async () => {
    const doc = receiptSample("AU");
    const [cash] = doc.settlements;
    if (!cash) throw new Error("A receipt of nothing paid.");
    const settlements = [
      { method: "card", amountMinor: 800, roundingMinor: 0, givenMinor: 800, changeMinor: 0 },
      { ...cash, amountMinor: cash.amountMinor - 800 },
    ];
    const found = await read(await invoicePdf({ ...doc, settlements }));
    has(found, "Paid, card $8.00", "Rounding to coins $0.02", "Paid, cash $11.65", "Change $0.35");
  });

  it("is a full invoice on a sheet where one was asked for", async () => {
    const found = await read(await invoicePdf({ ...receiptSample("NO"), kind: "invoice", title: "Faktura" }));
    expect(found.size).toEqual([595, 842]);
    has(found, "Faktura", "Solgt", "Betalt, kontant", "Vekslepenger");
  });
});

describe("an invoice on paper", () => {
  it("says what the price engine says in the paper's own words, the shop's words and figures as they are", async () => {
    const named = (name: string, ...said: LineSaid[]) => ({ name, said });
    const lines = [
      named("Work, carburettor", { what: "labour", english: "Work" }),
      named("Opening up and closing", { what: "opening", english: "Opening up and closing" }),
      named(
        "Sundries (variation 1004)",
        { what: "variation", english: "(variation" },
        ...saying("sundries", "Sundries").said,
      ),
      named(
        "7.5 % off Work, carburettor",
        { what: "lineOff", english: "% off" },
        { what: "labour", english: "Work" },
      ),
      named("Agreed discount", { what: "amountOff", english: "Agreed discount" }),
      named("Rounded down", { what: "roundedDown", english: "Rounded down" }),
      named("Discount", { what: "discount", english: "Discount" }),
      { name: "Work shop towel, Discount price" },
    ];
    for (const [country, wanted] of [
      ["AU", lines.map((line) => line.name)],
      [
        "NO",
        [
          "Arbeid, carburettor",
          "Åpning og lukking",
          "Forbruksmateriell (tilleggstilbud 1004)",
          "7.5 % avslag på Arbeid, carburettor",
          "Avtalt rabatt",
          "Rundet ned",
          "Rabatt",
          "Work shop towel, Discount price",
        ],
      ],
    ] as const) {
      const doc = invoiceSample(country);
      const [line] = doc.lines;
      if (!line) throw new Error("An invoice of nothing.");
      const { said: _, ...bare } = line;
      const printed = lines.map((one, at) => ({ ...bare, key: String(at), ...one }));
      has(await read(await invoicePdf({ ...doc, lines: printed })), ...wanted);
    }
  });

  it("of two jobs prints each one's lines under its name, and which job a deposit was for", async () => {
    for (const country of ["AU", "NO"] as const) {
      const found = await read(await invoicePdf(twoJobsSample(country)));
      const job = country === "AU" ? "Job" : "Jobb";
      const heads = [`${job} 601: Open-road breathing`, `${job} 614: Chain and sprockets`];
      has(found, ...heads, "Kestrel Trail 400");
      has(found, country === "AU" ? "card, job 614" : "kort, jobb 614");
      const text = whole(found.text);
      const [one, two] = heads.map((head) => text.lastIndexOf(whole(head)));
      expect(one).toBeLessThan(two ?? 0);
    }
  });

  it("carries all that an Australian tax invoice must: title, seller, ABN, date, what, GST and its extent, total", async () => {
    const doc = invoiceSample("AU");
    const found = await read(await invoicePdf(doc));
    has(
      found,
      "Tax invoice",
      "2001",
      "Saltpan Carburettor Works Pty Ltd",
      "ABN 51 824 753 556",
      "25 November 2026",
      "Ines Valdborg",
    );
    has(
      found,
      "Work, carburettor",
      "2 h 19 min",
      "132.00 /h",
      "Amount with tax, AUD",
      "10 %",
      "Threadlocker, medium",
      "1.5 ml",
      "1.2375",
    );
    const cents = (minor: number) => `$${(minor / 100).toFixed(2)}`;
    has(
      found,
      `Total with tax ${cents(doc.grossMinor)}`,
      `of which GST 10 % on ${cents(doc.netMinor)} without tax ${cents(doc.taxMinor)}`,
    );
    has(
      found,
      "Paid 10 November 2026, card -$100.00",
      `To pay ${cents(doc.dueMinor)}`,
      "Please pay by 2 December 2026.",
      "Reference2001",
    );
    expect(found.size).toEqual([595, 842]);
  });

  it("is in Norwegian for a Norwegian shop, tax on top, and letters of other alphabets are there", async () => {
    const doc = invoiceSample("NO");
    const found = await read(await invoicePdf(doc));
    has(
      found,
      "Faktura",
      "Fjellrev Motor AS",
      "988 077 917 MVA",
      "Åse Bjørkøy Łęska",
      "Forfall",
      "Beløp uten mva., NOK",
      "Sum uten mva.",
      "MVA 25 % av",
      "Å betale",
      "25. november 2026",
    );
  });

  it("of many lines repeats its heading on each page and numbers the pages", async () => {
    const found = await read(await invoicePdf(invoiceSample("AU", 90)));
    expect(found.pages.length).toBeGreaterThan(2);
    for (const [at, page] of found.pages.entries())
      expect(whole(page)).toContain(whole(`page ${at + 1} of ${found.pages.length}`));
    const withLines = found.pages.filter((page) => /Seal number/.test(page));
    expect(withLines.length).toBeGreaterThan(1);
    for (const page of withLines) expect(page).toMatch(/Unit price/);
    for (let n = 0; n < 90; n++) expect(found.text).toContain(`Seal number ${n} `);
  });

  it("printed twice is the same file, byte for byte; another day makes another", async () => {
    const doc = invoiceSample("AU");
    const [one, two, other] = [
      await invoicePdf(doc),
      await invoicePdf(doc),
      await invoicePdf({ ...doc, issuedOn: "2026-11-26" }),
    ];
    expect(Buffer.compare(one, two)).toBe(0);
    expect(Buffer.compare(one, other)).not.toBe(0);
  });

  it("as a credit note names the invoice, why, and what is to the customer's credit; as a draft it says it is none", async () => {
    const doc = invoiceSample("AU", 0, 0);
    const lines = creditOf(doc.lines.map((line) => ({ ...line, costMinor: null })));
    const credit = await read(
      await invoicePdf({
        ...doc,
        kind: "creditNote",
        number: 301,
        written: "301",
        lines,
        netMinor: 0 - doc.netMinor,
        taxMinor: 0 - doc.taxMinor,
        grossMinor: 0 - doc.grossMinor,
        dueMinor: 0 - doc.dueMinor,
        taxes: doc.taxes.map((tax) => ({
          ...tax,
          taxableMinor: 0 - tax.taxableMinor,
          taxMinor: 0 - tax.taxMinor,
        })),
        credits: {
          kind: "invoice",
          number: 2001,
          written: "2001",
          issuedOn: "2026-11-25",
          reason: "Wrong bike",
        },
      }),
    );
    has(
      credit,
      "Credit note",
      "301",
      "Credits invoice",
      "2001, 25 November 2026",
      "Wrong bike",
      `To your credit $${(doc.dueMinor / 100).toFixed(2)}`,
    );
    expect(credit.text).not.toContain("Please pay");
    has(await read(await invoicePdf({ ...doc, number: null })), "Draft: not an invoice");
  });
});

describe("the other papers", () => {
  it("as a credit note of a part prints what comes off, its tax and its total, in both regimes", async () => {
    for (const country of ["AU", "NO"] as const) {
      const doc = invoiceSample(country, 0, 0);
      const [first] = creditableLines(doc, []);
      const part = creditOfPart(doc, [], { lines: [{ key: first?.line.key ?? "", amountMinor: 1000 }] });
      const credit = await read(
        await invoicePdf({ ...doc, ...part, kind: "creditNote", written: "301", dueMinor: part.grossMinor }),
      );
      // 10.00 with its GST inside (1/11th: 0.91); 10.00 and 25 % MVA on top of it.
      if (country === "AU") has(credit, "Less for", "-10.00", "-$0.91", "-$10.00", "To your credit");
      else has(credit, "Avslag på", "−10,00", "−2,50 kr", "−12,50 kr", "Til gode");
    }
  });

  it("a quote shows options, settings now and new with their caution, the price and what accepting asks", async () => {
    const found = await read(await quotePdf(quoteSample("AU"), "AU"));
    has(
      found,
      "Quote 1001",
      "Valid until 26 November 2026",
      "Airbox opening, 48 mm",
      "Main jet, Right",
      "137.5",
      "145.0",
      "computed: verify",
    );
    has(
      found,
      "Starting point: verify by plug, lambda and test ride.",
      "Deposit asked $100.00",
      "38 min",
      "Louder on the intake side.",
      "I understand that computed settings",
    );
  });

  it("a quote lists the ways to choose from with their totals and the extras with what each adds, until it was chosen", async () => {
    const found = await read(await quotePdf(choicesSample("AU"), "AU"));
    has(found, "What is done: A, Open road", "You may choose", "A, Open road (as above)", "B");
    has(found, "$212.50", "1 h 35 min", "On public roads emissions and noise rules may apply");
    has(found, "You may add", "Needle reseated", "46 min $88.00");
    expect(found.text).not.toContain("Added by you");
    const accepted = await read(await quotePdf(choicesSample("AU", true), "AU"));
    has(
      accepted,
      "A, Open road (chosen)",
      "Alternatives you could choose from",
      "Added by you when accepting.",
    );
    const norwegian = await read(await quotePdf(choicesSample("NO"), "NO"));
    has(norwegian, "Du kan velge", "Du kan legge til", "A, Open road (som over)");
    const plain = await read(await quotePdf(quoteSample("AU"), "AU"));
    expect(plain.text).not.toMatch(/You may (choose|add)/);
  });

  it("a job card has each step in order with its caution first, limits, parts, and room for readings", async () => {
    const found = await read(await jobCardPdf(cardSample));
    has(
      found,
      "Job card 601",
      "Flat at quarter throttle when warm.",
      "Fuel vapour. No flame, no sparks.",
      "Take off: seat and tank",
      "12 to 13 mm",
      "12.5 mm",
    );
    has(
      found,
      "1 × RM-142 Main jet 142.5",
      "O-ring seated",
      "_____________ Check",
      "skipped: Bowl renewed",
      "at least 1,350 rpm",
      "Rafe Tolland",
    );
    // The float's procedure with the words of its drawing; nobody is told how to read a rev counter.
    has(found, "How it is measured", "Float height by gauge", "body, upside down", "Three at each float");
    expect(found.text.indexOf("Fuel vapour")).toBeLessThan(found.text.indexOf("Take off: seat and tank"));
    expect(found.pages.length).toBeGreaterThan(1);
  });

  it("a setting sheet says of each value how it is known, by carburettor", async () => {
    const found = await read(await settingSheetPdf(sheetSample));
    has(
      found,
      "Setting sheet: target",
      "Orme Twin 750, 1994",
      "Left, A2",
      "142.5",
      "145.0",
      "2.125 turns out",
      "measured",
      "read off the part",
      "computed: verify",
      "410 m, summer, 24 °C, 966.4 hPa, 35 % humidity",
    );
  });

  it("a setting sheet says the air it holds for in the shop's language and units", async () => {
    const inShop = (shop: Partial<SheetPaper["shop"]>) =>
      settingSheetPdf({ ...sheetSample, shop: { ...sheetSample.shop, ...shop } });
    has(await read(await inShop({ locale: "nb-NO" })), "410 m, sommer, 24 °C, 966,4 hPa, 35 % luftfuktighet");
    // 410 m is 1,345 ft, 24 °C is 75.2 °F, 966.4 hPa is 28.54 inHg (exact factors: 0.3048 m; 3,386.389 Pa).
    has(await read(await inShop({ units: "us" })), "1,345 ft, summer, 75.2 °F, 28.54 inHg, 35 % humidity");
  });

  it("a handover sheet sets as found beside as left and says what to watch", async () => {
    const found = await read(await handoverPdf(handoverSample));
    has(
      found,
      "Handover sheet",
      "Renew the breather filter",
      "137.5",
      "142.5",
      "1,400 rpm",
      "Needle, 36",
      "2.140",
      "2.110",
      "Needle jet bore",
      "As found: 2.615",
      "at most 2.6 mm",
      "2.560",
      "RM-142",
      "throttle sticks",
      "we do not certify it",
      "Look at again after heat and cold: header nuts",
      "24 May 2027 / 44,200 km",
      "Invoice 2041, by 1 December 2026",
      "To pay",
      "812.50",
      "Ines Valdborg, 24 Nov 2026, 16:10 (name typed)",
    );
  });

  it("paper follows the country: Letter in the United States, A4 in Australia", async () => {
    expect([paperSize("US"), paperSize("AU")]).toEqual(["LETTER", "A4"]);
    expect((await read(await invoicePdf({ ...invoiceSample("AU"), country: "US" }))).size).toEqual([
      612, 792,
    ]);
  });
});

describe("the printer", () => {
  it("opens no file and no address that a document names", async () => {
    const bare = {
      title: "x",
      author: "x",
      locale: "en",
      country: "AU",
      date: "2026-11-25",
      footer: () => "",
    };
    for (const image of ["/etc/hostname", "http://127.0.0.1:9/x.png", "package.json"])
      await expect(toPdf({ ...bare, content: [{ image }] })).rejects.toThrow();
  });

  it("splits text by the face that holds it, drops controls, and loses no letter", () => {
    expect(runsOf("Åse Łęska Жук", "Text").map((run) => [run.font, run.text])).toEqual([
      ["Text", "Åse "],
      ["TextMore", "Łę"],
      ["Text", "ska "],
      ["Other", "Жук"],
    ]);
    expect(runsOf("a\u0007b\u202e\u202fc\td", "Text")).toEqual([{ text: "ab\u00a0c d", font: "Text" }]);
  });
});
