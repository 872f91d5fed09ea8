import { Refusal } from "../refusal";
import { isBic, isIban, kontonummerHolds, routingHolds } from "./checkDigits";

/** How a country writes an account: Australia, New Zealand, Norway, the United Kingdom, the United States, or an IBAN alone. */
export const ACCOUNT_FORMS = ["au", "nz", "no", "gb", "us", "iban"] as const;
export type AccountForm = (typeof ACCOUNT_FORMS)[number];

/** A bank account as its parts, digits and letters only. What a form does not have is empty. */
export interface Account {
  readonly form: AccountForm;
  /** Who the account belongs to, as the bank knows them. */
  readonly holder: string;
  /** BSB, sort code or routing number; New Zealand's bank and branch. */
  readonly branch: string;
  /** The number; New Zealand's with its suffix. */
  readonly number: string;
  readonly iban: string;
  readonly bic: string;
}

/** The form that a shop of a country (ISO 3166-1 alpha-2) probably has. */
export function accountFormOf(country: string): AccountForm {
  const own = country.toLowerCase();
  return ACCOUNT_FORMS.find((form) => form === own) ?? "iban";
}

interface Shape {
  readonly branch: RegExp | null;
  readonly branchSays: string;
  readonly number: RegExp | null;
  readonly numberSays: string;
}

/**
 * Lengths: AU by the Bulk Electronic Clearing System (BSB of six digits, number of nine at most; ten are in use), NZ by Payments NZ
 * (bank 2, branch 4, number 7, suffix 2 or 3), GB by Pay.UK (sort code 6, number 8), US by ABA (routing number 9); all from memory.
 * NO: 11 digits (stdnum).
 */
const SHAPES: Readonly<Record<AccountForm, Shape>> = {
  au: {
    branch: /^\d{6}$/,
    branchSays: "A BSB has six digits: 105-001.",
    number: /^\d{4,10}$/,
    numberSays: "Enter four to ten digits.",
  },
  nz: {
    branch: /^\d{6}$/,
    branchSays: "Bank and branch have six digits: 01-0902.",
    number: /^\d{7}\d{2,3}$/,
    numberSays: "Enter the seven digits of the number and the two or three of the suffix.",
  },
  no: { branch: null, branchSays: "", number: /^\d{11}$/, numberSays: "A kontonummer has eleven digits." },
  gb: {
    branch: /^\d{6}$/,
    branchSays: "A sort code has six digits: 12-34-56.",
    number: /^\d{8}$/,
    numberSays: "Enter eight digits, with zeros in front where there are fewer.",
  },
  us: {
    branch: /^\d{9}$/,
    branchSays: "A routing number has nine digits.",
    number: /^\d{4,17}$/,
    numberSays: "Enter four to seventeen digits.",
  },
  iban: { branch: null, branchSays: "", number: null, numberSays: "" },
};

/** Which fields a form has, besides holder, IBAN and BIC. */
export const accountFields = (form: AccountForm) => ({
  branch: SHAPES[form].branch !== null,
  number: SHAPES[form].number !== null,
});

/** Forms in whose countries an IBAN may stand beside the number. */
export const mayHaveIban = (form: AccountForm) => form === "no" || form === "gb" || form === "iban";

const plain = (text: string) => text.toUpperCase().replace(/[\s.\-/]/gu, "");

/**
 * An account as it was typed, checked: spaces, dots and hyphens are taken out. Throws Refusal with a message for each field that
 * cannot be right: lengths as above, kontonummer by modulus 11, routing number by its check digit, IBAN by ISO 13616-1, BIC by ISO 9362.
 */
export function readAccount(typed: Account): Account {
  const { form } = typed;
  const shape = SHAPES[form];
  const iban = mayHaveIban(form) ? plain(typed.iban) : "";
  const account: Account = {
    form,
    holder: typed.holder.trim(),
    branch: shape.branch ? plain(typed.branch) : "",
    number: shape.number ? plain(typed.number) : "",
    iban,
    bic: iban ? plain(typed.bic) : "",
  };
  const wrong: Record<string, string> = {};
  if (!account.holder) wrong.holder = "Enter the name that the bank knows the account by.";
  if (shape.branch && !shape.branch.test(account.branch)) wrong.branch = shape.branchSays;
  else if (form === "us" && !routingHolds(account.branch)) wrong.branch = MISTYPED;
  if (shape.number && !shape.number.test(account.number)) wrong.number = shape.numberSays;
  else if (form === "no" && !kontonummerHolds(account.number)) wrong.number = MISTYPED;
  if (form === "iban" && !iban) wrong.iban = "Enter the IBAN.";
  else if (iban && !isIban(iban)) wrong.iban = MISTYPED;
  else if (form === "no" && iban && iban.slice(4) !== account.number)
    wrong.iban = "This is the IBAN of another account than the number above.";
  if (account.bic && !isBic(account.bic)) wrong.bic = "A BIC has eight or eleven characters: NEDSZAJJXXX.";
  if (Object.keys(wrong).length > 0)
    throw new Refusal(
      "The account is not right yet, so nothing was saved.",
      Object.values(wrong).join(" "),
      wrong,
    );
  return account;
}

const MISTYPED = "The check digits do not agree: a digit is probably mistyped.";

export type AccountRowName = "holder" | "bsb" | "sortCode" | "routing" | "number" | "iban" | "bic";

const BRANCH_NAMES = { au: "bsb", gb: "sortCode", us: "routing" } as const;

/** What papers say of an account, grouped as its country writes it. */
export function accountRows(account: Account): { readonly name: AccountRowName; readonly value: string }[] {
  const { form, holder, branch, number, iban, bic } = account;
  const branchName = form === "au" || form === "gb" || form === "us" ? BRANCH_NAMES[form] : null;
  const rows: { name: AccountRowName; value: string }[] = [
    { name: "holder", value: holder },
    ...(branchName ? [{ name: branchName, value: grouped(form, branch) }] : []),
    { name: "number", value: form === "nz" ? nzWritten(branch, number) : grouped(form, number) },
    { name: "iban", value: iban.replace(/(.{4})(?=.)/gu, "$1 ") },
    { name: "bic", value: bic },
  ];
  return rows.filter((row) => row.value !== "");
}

const nzWritten = (branch: string, number: string) =>
  [branch.slice(0, 2), branch.slice(2), number.slice(0, 7), number.slice(7)].join("-");

/** 105-001 and 12-34-56; a kontonummer as 1234.56.78901; other digits as they are. */
function grouped(form: AccountForm, digits: string): string {
  if (form === "no") return digits.replace(/^(\d{4})(\d{2})(\d{5})$/u, "$1.$2.$3");
  if (digits.length !== 6) return digits;
  return digits.replace(form === "au" ? /(\d{3})(?=\d)/gu : /(\d{2})(?=\d)/gu, "$1-");
}
