import fc from "fast-check";
import { stdnum } from "stdnum";
import { describe, expect, it } from "vitest";
import {
  ACCOUNT_FORMS,
  type Account,
  accountFormOf,
  accountRows,
  readAccount,
} from "@/lib/domain/money/account";
import { isBic, isIban, kidOf, kontonummerHolds, mod10, routingHolds } from "@/lib/domain/money/checkDigits";
import { type PayAsk, payCode, payRows } from "@/lib/domain/money/payAsk";
import { FULL } from "../support/size";

const runs = (few: number) => ({ numRuns: FULL ? 1000 : few });

const empty: Account = {
  form: "iban",
  holder: "Kanal Carburettors",
  branch: "",
  number: "",
  iban: "",
  bic: "",
};
const wrongIn = (typed: Account): string[] => {
  try {
    readAccount(typed);
    return [];
  } catch (cause) {
    return Object.keys((cause as { fields: object }).fields);
  }
};
const digits = (length: number) => fc.stringMatching(new RegExp(`^\\d{${length}}$`));

describe("check digits", () => {
  it("of a kontonummer agree with stdnum", () => {
    fc.assert(
      // stdnum takes four leading zeros for padding of a shorter number.
      fc.property(
        digits(11).filter((one) => !one.startsWith("0000")),
        (number) => {
          expect(kontonummerHolds(number)).toBe(stdnum.NO?.kontonr?.validate(number).isValid);
        },
      ),
      runs(200),
    );
    // The account of the SWIFT registry's Norwegian example.
    expect(kontonummerHolds("86011117947")).toBe(true);
    expect(stdnum.NO?.kontonr?.validate("86011117947").isValid).toBe(true);
  });

  it("of a US routing number are one for any eight digits", () => {
    fc.assert(
      fc.property(digits(8), (front) => {
        expect([...Array(10).keys()].filter((last) => routingHolds(`${front}${last}`))).toHaveLength(1);
      }),
      runs(100),
    );
    // Routing numbers in public examples, from memory.
    expect(["111000025", "021000021", "111000026"].map(routingHolds)).toEqual([true, true, false]);
  });

  it("of an IBAN hold for the SWIFT registry's examples and for none with two neighbours swapped", () => {
    const registry = [
      "BE68539007547034",
      "DE89370400440532013000",
      "DK5000400440116243",
      "FI2112345600000785",
      "FR1420041010050500013M02606",
      "GB29NWBK60161331926819",
      "IE29AIBK93115212345678",
      "NL91ABNA0417164300",
      "NO9386011117947",
      "SE4550000000058398257466",
    ];
    for (const iban of registry) {
      expect(isIban(iban), iban).toBe(true);
      expect(isIban(`${iban}0`), "longer than its country's").toBe(false);
      for (let at = 4; at < iban.length - 1; at++)
        if (iban[at] !== iban[at + 1])
          expect(isIban(iban.slice(0, at) + iban[at + 1] + iban[at] + iban.slice(at + 2))).toBe(false);
    }
  });

  it("of a KID are the Luhn formula's, and always eleven digits", () => {
    // The number in the Luhn formula's common example (Wikipedia, from memory): 7992739871 and 3.
    expect(mod10("7992739871")).toBe("3");
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 999_999_999 }), (number) => {
        const [invoice, deposit] = [kidOf("invoice", number), kidOf("deposit", number)];
        expect([invoice, deposit]).toEqual([
          expect.stringMatching(/^1\d{10}$/),
          expect.stringMatching(/^2\d{10}$/),
        ]);
        expect(mod10(invoice.slice(0, -1))).toBe(invoice.at(-1));
        // One digit wrong is always found.
        const at = number % 10;
        const wrong = invoice.slice(0, at) + ((Number(invoice[at]) + 1) % 10) + invoice.slice(at + 1);
        expect(mod10(wrong.slice(0, -1))).not.toBe(wrong.at(-1));
      }),
      runs(100),
    );
  });

  it("a BIC has none, but its shape (ISO 9362)", () => {
    expect(["NEDSZAJJ", "NEDSZAJJXXX", "DEUTDEFF500"].map(isBic)).toEqual([true, true, true]);
    expect(["NEDSZAJ", "NEDSZAJJXX", "NEDS1AJJ", ""].map(isBic)).toEqual([false, false, false, false]);
  });
});

describe("an account as it is typed", () => {
  it("is kept as digits and written as its country does", () => {
    const written = (typed: Partial<Account>) =>
      accountRows(readAccount({ ...empty, ...typed })).map(({ name, value }) => `${name} ${value}`);
    expect(written({ form: "au", branch: "105 001", number: "12-345 678" })).toEqual([
      "holder Kanal Carburettors",
      "bsb 105-001",
      "number 12345678",
    ]);
    // The example account of the IRD's specification, which stdnum takes for valid.
    expect(stdnum.NZ?.bank?.validate("01-902-0068389-00").isValid).toBe(true);
    expect(written({ form: "nz", branch: "01-0902", number: "0068389-00" })[1]).toBe(
      "number 01-0902-0068389-00",
    );
    expect(written({ form: "no", number: "8601 11 17947", iban: "no93 8601 1117 947" }).slice(1)).toEqual([
      "number 8601.11.17947",
      "iban NO93 8601 1117 947",
    ]);
    expect(written({ form: "gb", branch: "12 34 56", number: "01234567" }).slice(1)).toEqual([
      "sortCode 12-34-56",
      "number 01234567",
    ]);
    expect(written({ iban: "BE68 5390 0754 7034", bic: "nedsbebb" }).slice(1)).toEqual([
      "iban BE68 5390 0754 7034",
      "bic NEDSBEBB",
    ]);
  });

  it("is refused at each field that cannot be right, and nothing else of it is kept", () => {
    expect(wrongIn({ ...empty, holder: " " })).toEqual(["holder", "iban"]);
    expect(wrongIn({ ...empty, form: "au", branch: "10500", number: "123" })).toEqual(["branch", "number"]);
    expect(wrongIn({ ...empty, form: "no", number: "86011117948" })).toEqual(["number"]);
    expect(wrongIn({ ...empty, form: "no", number: "86011117947", iban: "BE68539007547034" })).toEqual([
      "iban",
    ]);
    expect(wrongIn({ ...empty, form: "us", branch: "111000026", number: "1234" })).toEqual(["branch"]);
    expect(wrongIn({ ...empty, iban: "BE68539007547035" })).toEqual(["iban"]);
    expect(wrongIn({ ...empty, iban: "BE68539007547034", bic: "NEDS" })).toEqual(["bic"]);
    // What a form does not have is not kept, whatever was sent.
    expect(
      readAccount({ ...empty, form: "au", branch: "105001", number: "12345678", iban: "X", bic: "Y" }),
    ).toEqual({
      ...empty,
      form: "au",
      branch: "105001",
      number: "12345678",
    });
  });

  it("is offered in the form of the shop's country", () => {
    expect(["AU", "NZ", "NO", "GB", "US", "DE", "SE"].map(accountFormOf)).toEqual([
      "au",
      "nz",
      "no",
      "gb",
      "us",
      "iban",
      "iban",
    ]);
    expect(ACCOUNT_FORMS).toHaveLength(6);
  });
});

describe("how to pay", () => {
  const payTo = { ...empty, iban: "BE68539007547034", reference: "F-2001", kid: false };
  const ask: PayAsk = { payTo, reference: "F-2001", note: "", name: "Kanal" };

  it("ends with the reference, whether or not there is an account in fields", () => {
    expect(payRows(ask).at(-1)).toEqual({ name: "reference", value: "F-2001" });
    expect(payRows({ ...ask, payTo: { ...payTo, reference: "10000020018", kid: true } }).at(-1)).toEqual({
      name: "kid",
      value: "10000020018",
    });
    expect(payRows({ ...ask, payTo: null, note: "Cash only" })).toEqual([
      { name: "reference", value: "F-2001" },
    ]);
  });

  it("has a code in euros alone, by the account's IBAN or by one in the shop's words", () => {
    expect(payCode(ask, "EUR", 100)).toContain("BE68539007547034\nEUR1.00");
    expect(payCode(ask, "NOK", 100)).toBeNull();
    expect(payCode({ ...ask, payTo: { ...payTo, iban: "" } }, "EUR", 100)).toBeNull();
    expect(payCode({ ...ask, payTo: null, note: "IBAN BE68 5390 0754 7034" }, "EUR", 100)).toContain(
      "\nKanal\n",
    );
  });
});
