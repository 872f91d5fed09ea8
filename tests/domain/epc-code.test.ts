import { describe, expect, it } from "vitest";
import { epcCode, ibanIn } from "@/lib/domain/money/epcCode";

describe("a transfer as a QR code (EPC069-12)", () => {
  // The country examples of the SWIFT IBAN registry.
  const REGISTRY = [
    "BE68539007547034",
    "DE89370400440532013000",
    "FR1420041010050500013M02606",
    "NO9386011117947",
  ];

  it("finds an account's number in a shop's own words, with the registry's examples", () => {
    for (const iban of REGISTRY) {
      expect(ibanIn(iban)).toBe(iban);
      const spaced = iban.replace(/(.{4})/g, "$1 ").trim();
      expect(ibanIn(`Valley Savings\nIBAN ${spaced}\nBIC VALLEXX`)).toBe(iban);
      const wrong = `${iban.slice(0, -1)}${(Number(iban.at(-1)) + 1) % 10}`;
      expect(ibanIn(wrong), wrong).toBeNull();
    }
    expect(ibanIn("BSB 105-001, account 1234567")).toBeNull();
    expect(ibanIn("IBAN BE68 5390 0754 7034 BIC VALLEXX")).toBe("BE68539007547034");
    // Divided by 97 this leaves 1, but check digits are digits (ISO 13616-1, 2!a2!n).
    expect(ibanIn("DE1A370400440532000090")).toBeNull();
  });

  it("is written line by line as the guideline says", () => {
    const code = epcCode({
      name: "Kanal Carburettors",
      iban: "BE68539007547034",
      bic: "",
      currency: "EUR",
      amountMinor: 12_305,
      reference: "Quote 1052",
    });
    expect(code?.split("\n")).toEqual([
      "BCD",
      "002",
      "1",
      "SCT",
      "",
      "Kanal Carburettors",
      "BE68539007547034",
      "EUR123.05",
      "",
      "",
      "Quote 1052",
    ]);
  });

  it("is not made for another currency, nothing to pay or no account", () => {
    const good = {
      name: "Kanal",
      iban: "BE68539007547034",
      bic: "NEDSBEBB",
      currency: "EUR",
      amountMinor: 1,
      reference: "1",
    };
    expect(epcCode(good)).toContain("EUR0.01");
    expect(epcCode({ ...good, currency: "NOK" })).toBeNull();
    expect(epcCode({ ...good, amountMinor: 0 })).toBeNull();
    expect(epcCode({ ...good, amountMinor: 99_999_999_999 })).toContain("EUR999999999.99");
    expect(epcCode({ ...good, amountMinor: 100_000_000_000 })).toBeNull();
    expect(epcCode({ ...good, iban: "BE68539007547035" })).toBeNull();
    expect(epcCode(good)?.split("\n")[4]).toBe("NEDSBEBB");
  });

  it("keeps a name and a reference on one line each, of 70 and 140 characters at most", () => {
    const lines = (name: string, reference: string) =>
      epcCode({ name, iban: "BE68539007547034", bic: "", currency: "EUR", amountMinor: 1, reference })?.split(
        "\n",
      );
    const said = lines("  Kanal \n  Carburettors ", ` ${"1".repeat(150)}`);
    expect([said?.length, said?.[5], said?.[10]]).toEqual([11, "Kanal Carburettors", "1".repeat(140)]);
    expect(lines("K".repeat(71), "")?.[5]).toBe("K".repeat(70));
  });
});
