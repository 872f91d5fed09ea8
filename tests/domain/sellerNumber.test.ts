import fc from "fast-check";
import { stdnum } from "stdnum";
import { describe, expect, it } from "vitest";
import { sellerNumber } from "@/lib/documents/sellerNumber";
import { Refusal } from "@/lib/domain/refusal";
import { taxNumber } from "@/lib/domain/tax/numbers";
import { TAX_REGIMES } from "@/lib/domain/tax/regimes";
import { markedNumber, saidOfNumber, sellerNumberRule } from "@/lib/domain/tax/sellerNumber";
import { paperWords } from "@/lib/words/papers";

describe("what papers say of the seller's number", () => {
  // Bokføringsforskriften § 5-1-2 (MVA after the number; Foretaksregisteret for AS, ASA and branches), as the trade reports it.
  it("is, in Norway, MVA where tax is charged and Foretaksregisteret where the company is registered there", () => {
    const said = (regime: string, registered: boolean, country = "NO") =>
      saidOfNumber(regime, country, registered).numberMarks;
    expect(said("no", false)).toEqual(["MVA"]);
    expect(said("no", true)).toEqual(["MVA", "Foretaksregisteret"]);
    expect(said("none", true)).toEqual(["Foretaksregisteret"]);
    expect(said("none", false)).toEqual([]);
    expect(said("au", true, "AU")).toEqual([]);
    expect(said("eu", true, "SE")).toEqual([]);
  });

  // Names: GST Act 1999 s 29-70 (ABN); Goods and Services Tax Act 1985; Value Added Tax Regulations 1995 reg 14, all from memory.
  it("begins with what the country calls it", () => {
    const names = (country: string) =>
      TAX_REGIMES.map((regime) => sellerNumberRule(regime.key, country).name).join(", ");
    expect(names("XX")).toBe(
      "ABN, GST number, VAT Reg No, Organisation number, VAT number, Seller's permit, Tax number, Business number",
    );
    expect(sellerNumberRule("none", "NO")).toMatchObject({ name: "Organisation number", kind: "noOrg" });
    expect(sellerNumberRule("none", "AU")).toMatchObject({ name: "ABN", kind: "abn" });
    expect(sellerNumberRule("us", "US").kind).toBeNull();
    expect(() => sellerNumberRule("xx", "NO")).toThrow(Refusal);
  });

  it("has a source and a word to confirm for each mark", () => {
    const { ofRegime, ofCompany } = sellerNumberRule("no", "NO");
    for (const mark of [ofRegime, ofCompany])
      expect(mark?.source).toMatch(/§ (5-1-2|10-2).*confirm with your accountant/u);
    expect(ofCompany?.question).toContain("Foretaksregisteret");
  });

  it.each([
    ["988 077 917", "988 077 917 MVA Foretaksregisteret"],
    ["988 077 917 mva", "988 077 917 MVA Foretaksregisteret"],
    ["988077917MVA", "988077917 MVA Foretaksregisteret"],
    ["NO 988 077 917 MVA Foretaksregisteret", "NO 988 077 917 MVA Foretaksregisteret"],
    ["Organisation number 988 077 917", "988 077 917 MVA Foretaksregisteret"],
    ["  ", ""],
  ])("bears each mark once: %s", (typed, printed) => {
    expect(markedNumber(typed, "Organisation number", ["MVA", "Foretaksregisteret"])).toBe(printed);
  });

  it("stays a number that stdnum takes for valid, however it was typed", () => {
    const digits = fc.integer({ min: 100_000_000, max: 999_999_999 }).map(String);
    const typed = fc.tuple(
      fc.constantFrom("", "NO ", "no"),
      digits,
      fc.constantFrom("", "MVA", " mva", " MVA Foretaksregisteret"),
    );
    fc.assert(
      fc.property(typed, ([before, number, after]) => {
        const said = markedNumber(before + number + after, "Organisation number", [
          "MVA",
          "Foretaksregisteret",
        ]);
        const read = () => taxNumber("noOrg", said);
        if (stdnum.NO?.orgnr?.validate(number).isValid) expect(read()).toBe(number);
        else expect(read).toThrow(Refusal);
      }),
      { numRuns: 300 },
    );
  });

  it("is called by its name in the paper's language, and a paper from before its name was kept keeps to what it said", () => {
    const no = { taxNumber: "988 077 917", ...saidOfNumber("no", "NO", true) };
    const au = { taxNumber: "51 824 753 556", ...saidOfNumber("au", "AU", true) };
    const [nb, en] = [paperWords("nb-NO"), paperWords("en-AU")];
    expect(sellerNumber(no, nb)).toBe("Organisasjonsnummer 988 077 917 MVA Foretaksregisteret");
    expect(sellerNumber(no, en)).toBe("Organisation number 988 077 917 MVA Foretaksregisteret");
    // An Australian shop's customer who reads Norwegian: an ABN is no organisasjonsnummer.
    expect(sellerNumber(au, nb)).toBe("ABN 51 824 753 556");
    expect(sellerNumber(au, en)).toBe("ABN 51 824 753 556");
    expect(sellerNumber({ taxNumber: "988 077 917" }, nb)).toBe("Organisasjonsnummer 988 077 917");
    expect(sellerNumber({ taxNumber: "51 824 753 556" }, en)).toBe("51 824 753 556");
    expect(sellerNumber({ ...no, taxNumber: "" }, nb)).toBe("");
  });
});
