import { stdnum } from "stdnum";
import { describe, expect, it } from "vitest";
import { adjusted } from "@/lib/domain/einvoice/adjusted";
import { registerId, schemedId, taxIdOf } from "@/lib/domain/einvoice/identifiers";
import { lineOf } from "@/lib/domain/einvoice/line";
import { type EnteredParty, partyOf } from "@/lib/domain/einvoice/party";
import { PLACES, placeOf, profileOf } from "@/lib/domain/einvoice/places";
import { unitCode } from "@/lib/domain/einvoice/units";
import type { PrintedLine } from "@/lib/domain/invoices/printed";
import { Decimal } from "@/lib/domain/money/decimal";
import { EinvoiceBuyerSchema } from "@/lib/schemas/einvoices";

/** A number with each of its last two digits changed. */
const wrongOnes = (number: string): string[] =>
  [1, 2].flatMap((from) =>
    Array.from({ length: 9 }, (_, by) => {
      const at = number.length - from;
      const digit = (Number(number[at]) + by + 1) % 10;
      return `${number.slice(0, at)}${digit}${number.slice(at + 1)}`;
    }),
  );

const refused = (run: () => unknown): boolean => {
  try {
    run();
    return false;
  } catch {
    return true;
  }
};

describe("identifiers of an e-invoice", () => {
  it("are taken and refused as stdnum does: ABN, Norwegian organisation number", () => {
    for (const [country, number, valid] of [
      ["AU", "91888222000", (text: string) => stdnum.AU?.abn?.validate(text).isValid],
      ["NO", "988077917", (text: string) => stdnum.NO?.orgnr?.validate(text).isValid],
    ] as const)
      for (const text of [number, ...wrongOnes(number)])
        expect(!refused(() => registerId(country, text)), `${country} ${text}`).toBe(valid(text));
  });

  it("have a check digit where they are a GLN or an NZBN (GS1 General Specifications)", () => {
    // Published examples of GS1: 4012345000009 and 9506000140445.
    for (const text of ["4012345000009", "9506000140445"]) {
      expect(schemedId("0088", text)).toEqual({ scheme: "0088", id: text });
      for (const other of wrongOnes(text).slice(0, 9))
        expect(refused(() => schemedId("0088", other))).toBe(true);
    }
    expect(registerId("NZ", "94 29999 99999 6")).toEqual({ scheme: "0088", id: "9429999999996" });
    expect(refused(() => registerId("NZ", "4012345000009"))).toBe(true);
  });

  it("are written as the country's e-invoices have its tax number (EN 16931 BT-31, BR-CO-09)", () => {
    expect(taxIdOf("NO", "988 077 917 mva")).toBe("NO988077917MVA");
    expect(taxIdOf("GB", "980 7806 84")).toBe("GB980780684");
    expect(taxIdOf("IE", "1234567FA")).toBe("IE1234567FA");
    expect(taxIdOf("AU", "51 824 753 556")).toBe("51824753556");
    expect(taxIdOf("US", "SR 12-34")).toBe("SR1234");
    expect(taxIdOf("NO", " ")).toBe("");
    expect(taxIdOf("NO", "988 077 918")).toBe("988077918");
  });

  it("keep one code of a scheme for each country, and no scheme outside the ISO 6523 list for a register (BR-CL-11)", () => {
    expect(new Set(PLACES.map((place) => place.scheme)).size).toBe(PLACES.length);
    expect(registerId("IE", "1234567FA")).toEqual({ scheme: "", id: "IE1234567FA" });
  });
});

describe("a party of an e-invoice", () => {
  const entered: EnteredParty = {
    ...{ street: "", city: "", postcode: "", country: "AU", registerNumber: "" },
    ...{ scheme: "", electronicAddress: "", taxNumber: "51 824 753 556" },
  };

  it("is known and reached by its tax number where that is the register's, and nothing else was entered", () => {
    const abn = { scheme: "0151", id: "51824753556" };
    expect(partyOf(entered)).toMatchObject({ register: abn, address: abn, taxId: "51824753556" });
    // New Zealand's GST number is no NZBN.
    expect(partyOf({ ...entered, country: "NZ", taxNumber: "49-091-850" })).toMatchObject({
      ...{ register: null, address: null, taxId: "49091850" },
    });
  });

  it("is reached elsewhere where that was entered, and nowhere by a wrong number", () => {
    const other = partyOf({ ...entered, scheme: "0192", electronicAddress: "988 077 917" });
    expect(other.address).toEqual({ scheme: "0192", id: "988077917" });
    expect(partyOf({ ...entered, taxNumber: "51 824 753 557" })).toMatchObject({
      register: null,
      address: null,
    });
  });
});

describe("the rules that an e-invoice keeps to", () => {
  it("are PINT A-NZ between Australia and New Zealand, Peppol BIS in Europe, EN 16931 alone elsewhere", () => {
    expect(profileOf("AU", "NZ")).toBe("pint");
    expect(profileOf("NO", "DE")).toBe("peppol");
    expect([
      profileOf("AU", "NO"),
      profileOf("NO", "NZ"),
      profileOf("US", "US"),
      profileOf("NO", "US"),
    ]).toEqual(Array(4).fill("core"));
    expect(placeOf("US")).toBeNull();
  });
});

describe("a line of an e-invoice", () => {
  const printed: PrintedLine = {
    ...{ key: "a", kind: "labour", name: "Work", quantityMilli: 417, unit: "h", unitPriceE4: 1_000_000 },
    ...{ netMinor: 4167, shownMinor: 4167, taxCategory: "S", taxRateBp: 2500, because: [] },
  };
  const made = (more: Partial<PrintedLine>, sign: 1 | -1 = 1) =>
    lineOf({ ...printed, ...more }, { id: 1, name: "Work", note: "", allowances: [] }, "NOK", sign);
  /** BT-146 / BT-149 x BT-129, which has to be BT-131. */
  const worth = ({ price, baseQuantity, quantity }: ReturnType<typeof made>) =>
    new Decimal(price)
      .div(baseQuantity ?? 1)
      .mul(quantity)
      .mul(100)
      .toDecimalPlaces(6)
      .toNumber();

  it("has a price that comes to its net to the cent: minutes charged by the hour, prices with tax in them, credits", () => {
    for (const [line, sign] of [
      [{}, 1],
      [{ quantityMilli: 2000, unitPriceE4: 92_400, unit: "each", netMinor: 1848 }, 1],
      [{ quantityMilli: 2000, unitPriceE4: 92_400, unit: "each", netMinor: 1680 }, 1],
      [{ quantityMilli: -1000, unitPriceE4: 77_700, unit: "each", netMinor: -777 }, 1],
      [{ quantityMilli: -417, netMinor: -4167 }, -1],
      [{ quantityMilli: 0, netMinor: 500 }, 1],
      [{ quantityMilli: 1500, unitPriceE4: 12_375, unit: "ml", netMinor: 186 }, 1],
    ] as const) {
      const one = made(line, sign);
      expect(Math.round(worth(one))).toBe(one.netMinor);
      // BR-27.
      expect(Number(one.price)).toBeGreaterThanOrEqual(0);
    }
    expect(made({})).toMatchObject({ price: "41.67", baseQuantity: "0.417", quantity: "0.417", unit: "HUR" });
    expect(made({ quantityMilli: 2000, unitPriceE4: 92_400, unit: "each", netMinor: 1848 })).toMatchObject({
      ...{ price: "9.24", baseQuantity: null, quantity: "2", unit: "C62" },
    });
  });

  it("says no rate outside the scope (BR-O-05) and a rate with a fraction whole", () => {
    expect(made({ taxCategory: "O", taxRateBp: 0 }).percent).toBeNull();
    expect(made({ taxCategory: "Z", taxRateBp: 0 }).percent).toBe("0");
    expect(made({ taxRateBp: 887.5 }).percent).toBe("8.875");
  });

  it("is counted in codes of UN/ECE Recommendation 20", () => {
    expect(["each", "h", "ml", "mm", "g", "?"].map(unitCode)).toEqual([
      "C62",
      "HUR",
      "MLT",
      "MMT",
      "GRM",
      "C62",
    ]);
  });
});

describe("discounts on an e-invoice", () => {
  const line = (
    key: string,
    kind: PrintedLine["kind"],
    netMinor: number,
    taxCategory = "S",
  ): PrintedLine => ({
    ...{ key, kind, name: key, quantityMilli: 1000, unit: "each", unitPriceE4: 0, netMinor },
    ...{ shownMinor: netMinor, taxCategory, taxRateBp: taxCategory === "S" ? 1000 : 0, because: [] },
  });
  const keys = (parts: ReturnType<typeof adjusted>) => ({
    lines: parts.lines.map((one) => [one.line.key, ...one.allowances.map((off) => off.key)]),
    allowances: parts.allowances.map((one) => one.key),
    charges: parts.charges.map((one) => one.key),
  });

  it("stand on their line (BG-27), on the document (BG-20) or as a charge (BG-21), on invoices and credit notes alike", () => {
    const printed = [
      line("a", "labour", 900),
      line("off-a", "discount", -90),
      line("job-614/a", "part", 500),
      line("job-614/off-a", "discount", -50),
      line("discount-S-1000", "discount", -20),
      line("packing", "discount", 35),
      line("off-gone", "discount", -1),
      line("nothing", "discount", 0),
    ];
    const wanted = {
      lines: [
        ["a", "off-a"],
        ["job-614/a", "job-614/off-a"],
      ],
      allowances: ["discount-S-1000", "off-gone"],
      charges: ["packing"],
    };
    expect(keys(adjusted(printed, 1))).toEqual(wanted);
    const mirrored = printed.map((one) => ({ ...one, netMinor: 0 - one.netMinor }));
    expect(keys(adjusted(mirrored, -1))).toEqual(wanted);
  });

  it("stand on no line that is taxed otherwise, and are lines where nothing else is there (BR-16)", () => {
    const otherwise = keys(adjusted([line("a", "labour", 900), line("off-a", "discount", -90, "Z")], 1));
    expect(otherwise).toMatchObject({ lines: [["a"]], allowances: ["off-a"] });
    expect(keys(adjusted([line("off-a", "discount", -90)], 1)).lines).toEqual([["off-a"]]);
  });
});

describe("the form of a customer's e-invoices", () => {
  const typed = (more: Record<string, string>) =>
    EinvoiceBuyerSchema.safeParse({ customerId: "1", version: "0", country: "AU", ...more });
  const wrong = (more: Record<string, string>) =>
    typed(more).error?.issues.map((issue) => issue.path.join(".")) ?? [];

  it("says at its field what is no number, and which of a pair is missing", () => {
    expect(wrong({ registerNumber: "91 888 222 000" })).toEqual([]);
    expect(wrong({ registerNumber: "91 888 222 001" })).toEqual(["registerNumber"]);
    expect(wrong({ electronicAddress: "988077917" })).toEqual(["scheme"]);
    expect(wrong({ scheme: "0192" })).toEqual(["electronicAddress"]);
    expect(wrong({ scheme: "0192", electronicAddress: "988077918" })).toEqual(["electronicAddress"]);
    expect(wrong({ scheme: "0001", electronicAddress: "1" })).toContain("scheme");
    expect(wrong({ country: "ZZ" })).toContain("country");
    expect(wrong({ street: "x".repeat(121) })).toEqual(["street"]);
  });
});
