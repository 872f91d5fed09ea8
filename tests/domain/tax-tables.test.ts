import { stdnum } from "stdnum";
import { describe, expect, it } from "vitest";
import { Refusal } from "../../lib/domain/refusal";
import { type TaxNumberKind, taxNumber } from "../../lib/domain/tax/numbers";
import { COUNTRY_PRESETS, countryPreset } from "../../lib/domain/tax/presets";
import { taxFor, taxMark, taxNameOf, taxRegime, taxText } from "../../lib/domain/tax/rates";
import { TAX_REGIMES } from "../../lib/domain/tax/regimes";
import { type InvoiceField, invoiceRequirements } from "../../lib/domain/tax/requirements";

describe("the presets of countries", () => {
  const names = new Intl.DisplayNames("en", { type: "region" });
  it("are named as CLDR names the region, in a language that is spoken there and a zone that lies there", () => {
    for (const p of COUNTRY_PRESETS) {
      expect(p.name).toBe(names.of(p.country));
      expect(new Intl.Locale(p.locale).region).toBe(p.country);
      const zones = new Intl.Locale(`und-${p.country}`) as Intl.Locale & { getTimeZones(): string[] };
      expect(zones.getTimeZones(), p.country).toContain(p.zone);
    }
  });

  // ISO 4217: a national currency's code begins with the country's. Members of the euro area: Treaty, art. 140 decisions.
  it("have their country's own currency, or the euro in the euro area", () => {
    const euro = ["DE", "FI", "FR", "IE", "NL"];
    for (const p of COUNTRY_PRESETS)
      expect(p.currency.slice(0, 2), p.country).toBe(euro.includes(p.country) ? "EU" : p.country);
  });

  // Directive 98/6/EC art. 2 and 3; Australian Consumer Law s 48; PAngV, LPG and the like elsewhere; from memory.
  it("show prices with tax in them everywhere but in the United States and Canada", () => {
    const without = COUNTRY_PRESETS.filter((p) => !p.pricesIncludeTax).map((p) => p.country);
    expect(without.sort()).toEqual(["CA", "US"]);
  });

  // CLDR supplemental data, measurementSystem: US for the United States, UK for the United Kingdom, metric for the rest.
  it("measure as CLDR says the country does", () => {
    const units = Object.fromEntries(COUNTRY_PRESETS.map((p) => [p.country, p.units]));
    expect(units.US).toBe("us");
    expect(units.GB).toBe("uk");
    const others = COUNTRY_PRESETS.filter((p) => p.country !== "US" && p.country !== "GB");
    expect(new Set(others.map((p) => p.units))).toEqual(new Set(["metric"]));
  });

  // Council Directive 2006/112/EC holds in member states; the rest have laws of their own (regimes.ts) or enter a rate.
  it("are taxed under the directive in the European Union, under their own law or an entered rate elsewhere", () => {
    const regime = Object.fromEntries(COUNTRY_PRESETS.map((p) => [p.country, p.taxRegime]));
    expect(regime).toEqual({
      AU: "au",
      NZ: "nz",
      NO: "no",
      GB: "gb",
      IE: "eu",
      DE: "eu",
      FR: "eu",
      NL: "eu",
      SE: "eu",
      DK: "eu",
      FI: "eu",
      CH: "entered",
      US: "us",
      CA: "entered",
    });
  });

  it("are found by the country's code and nothing like it", () => {
    expect(countryPreset("NZ").currency).toBe("NZD");
    expect(() => countryPreset("nz")).toThrow('no preset for "nz"');
    expect(() => countryPreset("")).toThrow(Refusal);
  });
});

describe("regimes", () => {
  it("are each found by their own key", () => {
    for (const regime of TAX_REGIMES) expect(taxRegime(regime.key)).toBe(regime);
    expect(TAX_REGIMES.map((r) => r.key)).toEqual(["au", "nz", "gb", "no", "eu", "us", "entered", "none"]);
  });

  // What a document calls the tax and the seller's number: the acts that each regime names.
  it("call the tax and the seller's number what the law calls them", () => {
    expect(TAX_REGIMES.map((r) => `${r.taxName}, ${r.numberName}`)).toEqual([
      "GST, ABN",
      "GST, GST number",
      "VAT, VAT Reg No",
      "MVA, Organisation number",
      "VAT, VAT number",
      "Sales tax, Seller's permit",
      "Tax, Tax number",
      "No tax, Business number",
    ]);
  });

  it("let a shop mark kinds of line as untaxed only where sales tax or an entered one is charged", () => {
    for (const { key } of TAX_REGIMES) {
      const labour = taxFor(key, "labour", { standardBp: 800, taxed: { labour: false } });
      expect(labour.category === "E", key).toBe(key === "us" || key === "entered");
    }
    expect(TAX_REGIMES.filter((r) => r.flagged).map((r) => r.key)).toEqual(["us", "entered"]);
  });

  it("say what to do beside the word to confirm, where something must be entered", () => {
    for (const { note, standardBp, key } of TAX_REGIMES)
      expect(/^Confirm/u.test(note), key).toBe(standardBp !== null && key !== "none");
  });

  it("take entered rates from 0 to 50 % and no others", () => {
    expect(taxFor("entered", "part", { standardBp: 5000 }).rateBp).toBe(5000);
    expect(taxFor("entered", "part", { standardBp: 0 })).toEqual({
      category: "O",
      rateBp: 0,
      name: "No Tax",
    });
    expect(() => taxFor("entered", "part", { standardBp: 5001 })).toThrow("outside 0 to 50 %");
    expect(() => taxFor("entered", "part", { standardBp: -1 })).toThrow(Refusal);
    expect(() => taxFor("entered", "part")).toThrow('"Another country: one rate, entered" is not entered');
  });

  it("write rates of whole and broken per cents without rounding dust", () => {
    expect(taxText("GST", 1000)).toBe("GST 10 %");
    expect(taxText("Sales tax", 887.5)).toBe("Sales tax 8.875 %");
    expect(taxText("VAT", 725.3)).toBe("VAT 7.253 %");
    expect(taxText("VAT", 0)).toBe("VAT");
  });

  it("read a kept mark, and take what is none for no mark", () => {
    expect(["", "Z", "E", "O"].map(taxMark)).toEqual(["", "Z", "E", "O"]);
    expect([undefined, "S", "z", "AE"].map(taxMark)).toEqual(["", "", "", ""]);
  });

  it("name the untaxed in words of their own, and nothing at all under no tax", () => {
    expect(["S", "Z", "E", "O"].map((c) => taxNameOf("none", c, 0))).toEqual(new Array(4).fill("No tax"));
    expect(["Z", "E", "O"].map((c) => taxNameOf("us", c, 0))).toEqual([
      "Sales tax 0 %",
      "No Sales tax",
      "No Sales tax",
    ]);
    expect(taxNameOf("au", "O", 0)).toBe("Outside the scope of GST");
  });

  it("leave a mark alone where the entered rate is nothing", () => {
    expect(taxFor("eu", "part", { standardBp: 0 }, "E")).toMatchObject({ category: "Z", rateBp: 0 });
    expect(taxFor("entered", "part", { standardBp: 0, taxed: { part: false } }).category).toBe("O");
  });
});

describe("what the law asks of an invoice", () => {
  const asked = (regime: string, gross: number, currency?: string) =>
    [...invoiceRequirements(regime, gross, currency).fields].sort();
  const all = (...fields: InvoiceField[]) => [...fields].sort();

  // GST Act 1999 s 29-70(1)(c): intent, seller's identity, ABN, date, what (with quantity and price), GST, extent taxed.
  it("in Australia is the seven of s 29-70, and the buyer's identity from 1,000 AUD", () => {
    const seven = all(
      "title",
      "sellerName",
      "sellerNumber",
      "issueDate",
      "description",
      "quantity",
      "gross",
      "taxAmount",
      "taxedExtent",
    );
    expect(asked("au", 99_999, "AUD")).toEqual(seven);
    expect(asked("au", 100_000, "AUD")).toEqual(all(...seven, "buyerIdentity"));
  });

  // Goods and Services Tax Act 1985 s 19K(2) to (4), from memory.
  it("in New Zealand is the seller, the date, what and how much; then number and tax; then the buyer", () => {
    const small = all("sellerName", "issueDate", "description", "gross");
    expect(asked("nz", 20_000)).toEqual(small);
    expect(asked("nz", 20_001)).toEqual(all(...small, "sellerNumber", "taxAmount"));
    expect(asked("nz", 100_001)).toEqual(
      all(...small, "sellerNumber", "taxAmount", "buyerIdentity", "buyerAddress"),
    );
  });

  // VAT Regulations 1995 reg 16A(1) and reg 14(1); Directive 2006/112/EC art. 226b and 226; from memory.
  const full = all(
    "title",
    "number",
    "issueDate",
    "supplyDate",
    "sellerName",
    "sellerAddress",
    "sellerNumber",
    "buyerIdentity",
    "buyerAddress",
    "description",
    "quantity",
    "unitPrice",
    "netPerRate",
    "rates",
    "taxAmount",
    "gross",
  );
  it("in the United Kingdom is reg 16A up to 250 GBP and reg 14 above it", () => {
    expect(asked("gb", 25_000, "GBP")).toEqual(
      all("sellerName", "sellerAddress", "sellerNumber", "supplyDate", "description", "rates", "gross"),
    );
    expect(asked("gb", 25_001, "GBP")).toEqual(full);
  });

  it("in the European Union is art. 226b up to 100 EUR and art. 226 above it", () => {
    expect(asked("eu", 10_000, "EUR")).toEqual(
      all("issueDate", "sellerName", "sellerNumber", "description", "taxAmount"),
    );
    expect(asked("eu", 10_001, "EUR")).toEqual(full);
    expect(asked("eu", -10_001, "EUR")).toEqual(full);
  });

  // Bokføringsforskriften § 5-1-1, from memory: § 5-1-1 no. 7 names the day of payment.
  it("in Norway is everything and the day it is due, at any amount and in any currency", () => {
    for (const gross of [1, 10_000_000]) expect(asked("no", gross, "NOK")).toEqual(all(...full, "dueDate"));
    expect(asked("no", 1, "EUR")).toEqual(all(...full, "dueDate"));
  });

  it("elsewhere is number, date, seller, what and how much; with the tax where one is charged", () => {
    const plain = all("number", "issueDate", "sellerName", "description", "gross");
    expect(asked("none", 5)).toEqual(plain);
    expect(asked("us", 5)).toEqual(all(...plain, "taxAmount", "taxedExtent"));
    expect(asked("entered", 5)).toEqual(all(...plain, "sellerNumber", "taxAmount", "rates"));
  });

  it("is the fullest in a currency in which the law names no amount, and its own tier in its own", () => {
    expect(asked("eu", 1, "DKK")).toEqual(full);
    expect(asked("eu", 1)).not.toEqual(full);
    expect(invoiceRequirements("us", 1, "EUR").tier).toBe("every invoice");
    expect(invoiceRequirements("gb", 1, "EUR").tier).toContain("full");
  });

  it("names the tier that a total falls in by the law's amounts", () => {
    const tier = (key: string, gross: number) => invoiceRequirements(key, gross).tier;
    expect([tier("au", 99_999), tier("au", 100_000)]).toEqual(["below 1,000 AUD", "1,000 AUD or more"]);
    expect([20_000, 20_001, 100_001].map((gross) => tier("nz", gross))).toEqual([
      "up to 200 NZD",
      "above 200 to 1,000 NZD",
      "above 1,000 NZD",
    ]);
    expect(asked("nz", 20_000, "NZD")).toEqual(asked("nz", 20_000));
    expect(asked("nz", 1, "AUD")).toEqual(asked("nz", 100_001));
  });

  it("gives the document its name: tax invoice, VAT invoice, faktura or invoice", () => {
    expect(TAX_REGIMES.map(({ key }) => invoiceRequirements(key, 1).title)).toEqual([
      "Tax invoice",
      "Tax invoice",
      "VAT invoice",
      "Faktura",
      "Invoice",
      "Invoice",
      "Invoice",
      "Invoice",
    ]);
  });
});

describe("numbers of tax and business", () => {
  const accepts = (kind: TaxNumberKind, text: string) => {
    try {
      return taxNumber(kind, text);
    } catch (error) {
      if (error instanceof Refusal) return null;
      throw error;
    }
  };

  it("are read through spaces, dots, dashes, slashes and their country's prefix", () => {
    expect(accepts("abn", "abn 51.824.753.556")).toBe("51824753556");
    expect(accepts("ird", "NZ 49-091-850")).toBe("49091850");
    expect(accepts("gbVat", "gb980/7806/84")).toBe("980780684");
    expect(accepts("noOrg", "988077917MVA")).toBe("988077917");
    expect(accepts("nzbn", "NZBN 94 29999 99999 6")).toBe("9429999999996");
  });

  it("have their length and nothing before or behind", () => {
    for (const [kind, good] of [
      ["abn", "51824753556"],
      ["ird", "49091850"],
      ["gbVat", "980780684"],
      ["noOrg", "988077917"],
      ["nzbn", "9429999999996"],
    ] as const) {
      expect(accepts(kind, good)).toBe(good);
      for (const bad of [`${good}0`, `0${good}0`, `X${good}`, `${good}X`, good.slice(1), good.slice(0, -1)])
        expect(accepts(kind, bad), `${kind} ${bad}`).toBeNull();
    }
  });

  // Inland Revenue: numbers run from 10 000 000 to 150 000 000, room to 200 000 000; a leading zero makes nine digits. From memory.
  it("of Inland Revenue start at 10 000 000", () => {
    expect(accepts("ird", "049091850")).toBe("049091850");
    // Both check digits are right by the weights 3 2 7 6 5 4 3 2; the numbers lie below and above.
    expect(accepts("ird", "09125566")).toBeNull();
    expect(accepts("ird", "200000013")).toBeNull();
  });

  // HMRC: nine digits, or twelve with the branch trader's three; modulus 97, or 97-55 for those issued since 2010. From memory.
  it("of HMRC may name a branch in three more digits", () => {
    expect(accepts("gbVat", "980780684001")).toBe("980780684001");
    expect(accepts("gbVat", "980780685001")).toBeNull();
    expect(accepts("gbVat", "9807806840")).toBeNull();
  });

  // The digits before or behind are such that the weights alone would let each of these pass.
  it("have no digit or letter too many, whatever the weights say", () => {
    expect(accepts("ird", "0010000040")).toBeNull();
    expect(accepts("ird", "049091850X")).toBeNull();
    expect(accepts("nzbn", "09400000000090")).toBeNull();
  });

  // stdnum 1.12.0 says so of each: seven zeros at the start are none, elsewhere they are; 42 and 55 only from 100 on.
  it("of HMRC may begin with a zero or hold seven, and leave 42 or 55 only from 100 on, as stdnum judges", () => {
    const said = (text: string) => [accepts("gbVat", text) !== null, stdnum.GB?.vat?.validate(text).isValid];
    expect(said("001000091")).toEqual([true, true]);
    expect(said("500000002")).toEqual([true, true]);
    expect(said("090003080")).toEqual([false, false]);
    expect(said("000000042")).toEqual([false, false]);
  });

  it("have their country's prefix in front and nowhere else", () => {
    for (const [kind, odd] of [
      ["abn", "51ABN824753556"],
      ["ird", "4909NZ1850"],
      ["gbVat", "98GB0780684"],
      ["noOrg", "988NO077917"],
      ["noOrg", "988MVA077917"],
      ["nzbn", "94NZBN29999999996"],
      ["euVat", "1IE1234567"],
    ] as const)
      expect(accepts(kind, odd), odd).toBeNull();
    expect(() => taxNumber("nzbn", "1")).toThrow('"1" is no valid NZBN');
  });

  // Directive 2006/112/EC art. 215: the prefix of ISO 3166; the longest national number has twelve signs (FR, SE).
  it("of the European Union have a country's two letters and two to twelve signs", () => {
    expect(accepts("euVat", "SE 123456789701")).toBe("SE123456789701");
    expect(accepts("euVat", "IE1A")).toBe("IE1A");
    expect(accepts("euVat", "IE+*")).toBe("IE+*");
    for (const bad of ["SE1234567897012", "IE1", "I1234567", "1E1234567", "XIE1234567!", "IE12345_7"])
      expect(accepts("euVat", bad), bad).toBeNull();
  });

  it("that are wrong are refused with an example that is right", () => {
    const examples: Partial<Record<TaxNumberKind, string>> = {};
    for (const kind of ["abn", "ird", "gbVat", "noOrg", "nzbn", "euVat"] as const) {
      try {
        taxNumber(kind, "?");
      } catch (error) {
        if (error instanceof Refusal)
          examples[kind] = error.remedy.split("looks like ")[1]?.replace(/\.$/u, "") ?? "";
      }
      expect(accepts(kind, examples[kind] ?? ""), kind).not.toBeNull();
    }
  });
});
