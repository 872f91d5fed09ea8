import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import fc from "fast-check";
import { XmlDocument } from "libxml2-wasm";
import { describe, expect, it } from "vitest";
import { einvoiceXml } from "@/lib/documents/einvoice";
import { printEnclosed } from "@/lib/documents/enclosed";
import { ublText } from "@/lib/documents/ubl";
import { type EnteredParty, partyOf } from "@/lib/domain/einvoice/party";
import { profileOf } from "@/lib/domain/einvoice/places";
import { brokenRules } from "@/lib/domain/einvoice/requirements";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import type { EinvoiceProfile, PrintedEinvoice, PrintedParty } from "@/lib/domain/invoices/printedEinvoice";
import { ARTEFACTS, brokenRules as officiallyBroken, schemaFaults } from "../support/einvoiceChecks";
import { amountsOf, edited } from "../support/einvoiceText";
import { FULL } from "../support/size";
import { invoiceSample, receiptSample, twoJobsSample } from "./samples";

const party = (country: string, taxNumber: string, more: Partial<EnteredParty> = {}): PrintedParty =>
  partyOf({
    ...{ street: "4 Gauge Street", city: "Saltpan", postcode: "5000", country, taxNumber },
    ...{ registerNumber: "", scheme: "", electronicAddress: "", ...more },
  });

/** A sample of two shops as its e-invoice is made of. */
function sample(country: "AU" | "NO", more: Partial<PrintedEinvoice> = {}): PrintedInvoice {
  const [own, other] = country === "AU" ? ["51824753556", "91888222000"] : ["988077917", "987654325"];
  return {
    ...invoiceSample(country),
    einvoice: {
      profile: profileOf(country, country),
      seller: party(country, own ?? ""),
      buyer: party(country, other ?? ""),
      buyerReference: "Fleet",
      orderNumber: "PO-7",
      ...more,
    },
  };
}

const EXAMPLES = ["en16931/examples", "pint-anz/examples"].flatMap((folder) =>
  ARTEFACTS ? readdirSync(join(ARTEFACTS, folder)).map((name) => join(ARTEFACTS ?? "", folder, name)) : [],
);
const example = (name: string) => readFileSync(EXAMPLES.find((path) => path.endsWith(name)) ?? "", "utf8");

/** Examples of the publishers (CEN/TC 434, Peppol PINT A-NZ): the checks here find nothing in them, and what is broken in them. */
describe.skipIf(!ARTEFACTS)("the checks of e-invoices", () => {
  const often = ["ubl-tc434-example3.xml", "au-credit-note.xml"];
  for (const path of EXAMPLES.filter((one) => FULL || often.some((name) => one.endsWith(name))))
    it(`take the publisher's own example ${basename(path)}`, () => {
      const xml = readFileSync(path, "utf8");
      expect(schemaFaults(xml)).toEqual([]);
      expect(officiallyBroken(xml)).toEqual([]);
    });

  it("name the rule that a broken example breaks, and where its elements are in the wrong order", () => {
    const en = example("ubl-tc434-example3.xml");
    expect(
      officiallyBroken(edited(en, /<cbc:DocumentCurrencyCode[^>]*>[^<]*<\/cbc:DocumentCurrencyCode>/u, "")),
    ).toContain("BR-05");
    const au = example("au-credit-note.xml");
    expect(officiallyBroken(edited(au, /(<cbc:CityName>)[^<]*/u, "$1"))).toEqual(["ibr-079"]);
    expect(officiallyBroken(edited(au, /(<cbc:PayableAmount[^>]*>)[^<]*/u, "$11.23"))).toEqual(["ibr-co-16"]);
    const turned = edited(
      en,
      /(<cbc:ID>[^<]*<\/cbc:ID>)(\s*)(<cbc:IssueDate>[^<]*<\/cbc:IssueDate>)/u,
      "$3$2$1",
    );
    expect(schemaFaults(turned).join("\n")).toMatch(/IssueDate/u);
  });
});

describe("an e-invoice", () => {
  it("is the same text each time", () => {
    expect(einvoiceXml(sample("AU"))).toBe(einvoiceXml(sample("AU")));
  });

  it("is of no document that was issued without one, nor of a receipt", () => {
    expect(() => einvoiceXml(invoiceSample("AU"))).toThrow(/e-invoices were off/u);
    expect(() =>
      einvoiceXml({ ...receiptSample("AU"), einvoice: sample("AU").einvoice as PrintedEinvoice }),
    ).toThrow();
  });

  it("says any text as it is, but for characters that XML 1.0 has no place for, which are dropped", () => {
    // XML 1.0 (fifth edition), 2.2: what is no Char. A lone surrogate is none; a pair is one character.
    const nasty = `<a href="x">&amp; &#0; &#x110000; ]]> 'quoted' \u0000\u0008\uFFFE\uD800 end \u{1F3CD}\u0085`;
    const doc = sample("NO");
    const [first, ...rest] = doc.lines;
    if (!first) throw new Error("no line");
    const xml = einvoiceXml({
      ...doc,
      note: nasty,
      lines: [{ ...first, name: nasty, said: [] }, ...rest],
      buyer: { ...doc.buyer, name: nasty },
    });
    using read = XmlDocument.fromString(xml);
    const names = read.find("//*[local-name()='RegistrationName']").map((node) => node.content);
    expect(names[1]).toBe(`<a href="x">&amp; &#0; &#x110000; ]]> 'quoted'  end \u{1F3CD}\u0085`);
    expect(["\u0000", "\u0008", "\uFFFE"].filter((none) => xml.includes(none))).toEqual([]);
    if (ARTEFACTS) expect(schemaFaults(xml)).toEqual([]);
  });

  it("is read as it was written, whatever was typed (property)", () => {
    const typed = fc.oneof(
      fc.string({ unit: "binary", maxLength: 40 }),
      fc.stringMatching(/^[&#;xa-z0-9<>"' ]{0,20}$/u),
    );
    fc.assert(
      fc.property(typed, (text) => {
        using read = XmlDocument.fromString(ublText("Invoice", { "cbc:ID": "1", "cbc:Note": text }));
        const [note] = read.find("//*[local-name()='Note']");
        // XML 1.0, 2.11: what ends a line is read as one line feed. What is no Char is dropped, blanks at both ends are.
        const kept = [...text.replace(/\r\n?/gu, "\n")].filter((char) => {
          const code = char.codePointAt(0) ?? 0;
          return (
            code === 9 ||
            code === 10 ||
            (code >= 32 && code !== 0xfffe && code !== 0xffff && !(code >= 0xd800 && code <= 0xdfff))
          );
        });
        expect(note?.content ?? "").toBe(kept.join("").trim());
      }),
      { numRuns: FULL ? 1000 : 200 },
    );
  });

  it("takes discounts off the document (BG-20) in their tax category, and says which job a line is of", () => {
    const doc = sample("NO");
    const off = doc.lines.filter((line) => line.kind === "discount");
    const said = amountsOf(einvoiceXml(doc));
    expect(off.length).toBeGreaterThan(0);
    expect(said.allowances).toBe(0 - off.reduce((sum, line) => sum + line.netMinor, 0));
    expect(said.lines).toHaveLength(doc.lines.length - off.length);
    const several = einvoiceXml({
      ...twoJobsSample("AU"),
      einvoice: sample("AU").einvoice as PrintedEinvoice,
    });
    expect(several).toContain("<cbc:Note>Job 614: Chain and sprockets, Kestrel Trail 400</cbc:Note>");
  });

  it("takes a share off one line on that line (BG-27), whose net amount and the price stay exact", () => {
    const doc = sample("NO");
    const [first] = doc.lines;
    if (!first) throw new Error("no line");
    const off = doc.lines.find((line) => line.kind === "discount");
    const key = `off-${first.key}`;
    const lines = doc.lines.map((line) => (line === off ? { ...line, key } : line));
    const xml = einvoiceXml({ ...doc, lines });
    const said = amountsOf(xml);
    expect(said.lines[0]).toBe(first.netMinor + (off?.netMinor ?? 0));
    expect(said).toMatchObject({ allowances: 0, lineSum: doc.netMinor, gross: doc.grossMinor });
    if (ARTEFACTS) expect([...schemaFaults(xml), ...officiallyBroken(xml)]).toEqual([]);
  });

  it("adds what a discount of the other sign adds as a charge (BG-21)", () => {
    const doc = sample("NO");
    const more = doc.lines.map((line) =>
      line.kind === "discount"
        ? { ...line, netMinor: 0 - line.netMinor, shownMinor: 0 - line.shownMinor }
        : line,
    );
    const twice = more
      .filter((line) => line.kind === "discount")
      .reduce((sum, line) => sum + 2 * line.netMinor, 0);
    const [group] = doc.taxes;
    if (!group) throw new Error("no tax");
    const netMinor = doc.netMinor + twice;
    const taxMinor = Math.round(netMinor / 4);
    const changed: PrintedInvoice = {
      ...{
        ...doc,
        lines: more,
        netMinor,
        taxMinor,
        grossMinor: netMinor + taxMinor,
        prepaidMinor: 0,
        deposits: [],
      },
      dueMinor: netMinor + taxMinor,
      taxes: [{ ...group, taxableMinor: netMinor, taxMinor }],
    };
    const xml = einvoiceXml(changed);
    expect(amountsOf(xml)).toMatchObject({ charges: twice / 2, allowances: 0, net: netMinor });
    if (ARTEFACTS) expect(officiallyBroken(xml)).toEqual([]);
  });

  it("is refused where a document does not add up, rather than written", () => {
    const doc = sample("AU");
    expect(() => einvoiceXml({ ...doc, netMinor: doc.netMinor + 1 })).toThrow(/does not add up/u);
    expect(() => einvoiceXml({ ...doc, dueMinor: doc.dueMinor + 1 })).toThrow(/does not add up/u);
    const [first, ...rest] = doc.lines;
    if (!first) throw new Error("no line");
    expect(() =>
      einvoiceXml({ ...doc, lines: [{ ...first, taxCategory: "Z", taxRateBp: 0 }, ...rest] }),
    ).toThrow(/a tax group is not its lines/u);
  });

  it("goes with a mail as a file of its own", async () => {
    const file = await printEnclosed({
      name: "invoice-2001.xml",
      document: "invoice",
      form: "xml",
      printed: sample("AU"),
    });
    expect(file).toMatchObject({ name: "invoice-2001.xml", type: "application/xml" });
    expect(Buffer.from(file.content).toString("utf8")).toBe(einvoiceXml(sample("AU")));
  });
});

/** Each requirement of ours, broken on its own. Where the official check knows the rule, it names the same one. */
interface Break {
  readonly rule: string;
  readonly profile: EinvoiceProfile;
  readonly doc: PrintedInvoice;
  /** False: the rule is of Peppol BIS Billing 3, whose own schematron is not among the artefacts. */
  readonly official?: false;
}

const withParty = (country: "AU" | "NO", who: "seller" | "buyer", change: Partial<PrintedParty>) => {
  const doc = sample(country);
  const { einvoice } = doc;
  return {
    ...doc,
    einvoice: {
      ...(einvoice as PrintedEinvoice),
      [who]: { ...(einvoice as PrintedEinvoice)[who], ...change },
    },
  };
};
const BARE = { street: "", city: "", postcode: "" };
const taxedAs = (country: "AU" | "NO", category: string): PrintedInvoice => {
  const doc = sample(country);
  const rateBp = category === "S" ? (country === "AU" ? 1000 : 2500) : 0;
  const taxMinor = category === "S" ? doc.taxMinor : 0;
  const grossMinor = doc.netMinor + taxMinor;
  return {
    ...doc,
    ...{ taxMinor, grossMinor, dueMinor: grossMinor - doc.prepaidMinor },
    lines: doc.lines.map((line) => ({ ...line, taxCategory: category, taxRateBp: rateBp })),
    taxes: [{ category, rateBp, name: "Exempt", taxableMinor: doc.netMinor, taxMinor }],
  };
};
/** One line outside the tax's scope beside the taxed ones. */
const outsideBeside = (country: "AU" | "NO"): PrintedInvoice => {
  const doc = sample(country);
  const [first] = doc.lines;
  if (!first) throw new Error("no line");
  const line = { ...first, key: "out", taxCategory: "O", taxRateBp: 0, netMinor: 500, shownMinor: 500 };
  return {
    ...doc,
    lines: [...doc.lines, line],
    taxes: [...doc.taxes, { category: "O", rateBp: 0, name: "Outside", taxableMinor: 500, taxMinor: 0 }],
    ...{ netMinor: doc.netMinor + 500, grossMinor: doc.grossMinor + 500, dueMinor: doc.dueMinor + 500 },
  };
};
const withoutTaxId = (category: string): PrintedInvoice => {
  const doc = taxedAs("NO", category);
  const { einvoice } = withParty("NO", "seller", { taxId: "" });
  return { ...doc, einvoice };
};
const unreferenced = { buyerReference: "", orderNumber: "" };
const nz = (who: "seller" | "buyer") => withParty("AU", who, { country: "NZ", register: null });

const BREAKS: readonly Break[] = (["AU", "NO"] as const)
  .flatMap((country): Break[] => {
    const profile = country === "AU" ? "pint" : "peppol";
    const rule = (number: string) => (country === "AU" ? `ibr-0${number}` : `BR-${number}`);
    const doc = sample(country);
    const bareSeller = withParty(country, "seller", BARE);
    const bareBuyer = withParty(country, "buyer", BARE);
    const nameless = { ...doc.seller, name: "", legalName: "" };
    return [
      { rule: rule("06"), profile, doc: { ...doc, seller: nameless } },
      { rule: rule("07"), profile, doc: { ...doc, buyer: { ...doc.buyer, name: " " } } },
      { rule: rule("08"), profile, doc: { ...bareSeller, seller: { ...doc.seller, address: "" } } },
      { rule: rule("10"), profile, doc: { ...bareBuyer, buyer: { ...doc.buyer, address: "" } } },
      { rule: rule("11"), profile, doc: withParty(country, "buyer", { country: "" }) },
      {
        rule: rule("25"),
        profile,
        doc: {
          ...doc,
          lines: doc.lines.map((line, at) => (at === 0 ? { ...line, name: "", said: [] } : line)),
        },
      },
      {
        rule: country === "AU" ? "ibr-co-26" : "BR-CO-26",
        profile,
        doc: withParty(country, "seller", { register: null, taxId: "" }),
      },
    ];
  })
  .concat([
    { rule: "BR-S-02", profile: "peppol", doc: withoutTaxId("S") },
    { rule: "BR-Z-02", profile: "peppol", doc: withoutTaxId("Z") },
    { rule: "BR-E-02", profile: "peppol", doc: withoutTaxId("E") },
    { rule: "BR-CO-09", profile: "peppol", doc: withParty("NO", "seller", { taxId: "988077918" }) },
    { rule: "BR-CO-09", profile: "peppol", doc: withParty("NO", "buyer", { taxId: "12345" }) },
    { rule: "aligned-ibr-001-aunz", profile: "pint", doc: withParty("AU", "seller", { register: null }) },
    { rule: "aligned-ibr-004-aunz", profile: "pint", doc: withParty("AU", "buyer", { register: null }) },
    { rule: "aligned-ibr-002-aunz", profile: "pint", doc: nz("seller") },
    { rule: "aligned-ibr-005-aunz", profile: "pint", doc: nz("buyer") },
    { rule: "ibr-081", profile: "pint", doc: withParty("AU", "seller", { address: null }) },
    { rule: "ibr-080", profile: "pint", doc: withParty("AU", "buyer", { address: null }) },
    { rule: "aligned-ibrp-003", profile: "pint", doc: sample("AU", unreferenced) },
    { rule: "BR-O-11", profile: "peppol", doc: outsideBeside("NO") },
    { rule: "aligned-ibrp-o-11-aunz", profile: "pint", doc: outsideBeside("AU") },
    { rule: "BR-DEC-14", profile: "peppol", doc: { ...sample("NO"), currency: "KWD" } },
    { rule: "ibr-125", profile: "pint", doc: { ...sample("AU"), currency: "KWD" } },
    {
      rule: "PEPPOL-EN16931-R020",
      profile: "peppol",
      doc: withParty("NO", "seller", { address: null }),
      official: false,
    },
    {
      rule: "PEPPOL-EN16931-R010",
      profile: "peppol",
      doc: withParty("NO", "buyer", { address: null }),
      official: false,
    },
    { rule: "PEPPOL-EN16931-R003", profile: "peppol", doc: sample("NO", unreferenced), official: false },
  ]);

/** By default one of each kind of check; all with TEST_SIZE=full. */
const CHECKED_OFTEN = ["BR-10", "aligned-ibr-004-aunz"];

describe("what is asked before an e-invoice is issued", () => {
  it("is nothing of a whole document, nor of one without an e-invoice", () => {
    for (const country of ["AU", "NO"] as const) {
      expect(brokenRules(sample(country))).toEqual([]);
      expect(brokenRules(invoiceSample(country))).toEqual([]);
    }
  });

  for (const [at, { rule, profile, doc, official = true }] of BREAKS.entries()) {
    it(`${rule} (${profile}, case ${at + 1}) is named, and leads to what mends it`, () => {
      expect(doc.einvoice?.profile).toBe(profile);
      const found = brokenRules(doc);
      expect(found.map((one) => one.rule)).toContain(rule);
      for (const one of found) expect(one.what).toMatch(/[.]$/u);
    });

    it.skipIf(!ARTEFACTS || !official || !(FULL || CHECKED_OFTEN.includes(rule)))(
      `${rule} (${profile}, case ${at + 1}) is the rule that the official check names, too`,
      () => {
        expect(officiallyBroken(einvoiceXml(doc))).toContain(rule);
      },
    );
  }

  it("is a line at least (BR-16): a document of none has no e-invoice", () => {
    const doc = {
      ...sample("NO"),
      lines: [],
      taxes: [],
      netMinor: 0,
      taxMinor: 0,
      grossMinor: 0,
      prepaidMinor: 0,
      dueMinor: 0,
      deposits: [],
    };
    expect(brokenRules(doc).map((one) => one.rule)).toContain("BR-16");
    if (ARTEFACTS) expect(officiallyBroken(einvoiceXml(doc))).toContain("BR-16");
  });
});
