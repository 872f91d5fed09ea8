import { bareHeading } from "../imports/guess";
import { BANK_FIELDS, type BankColumns, type BankField } from "./types";

/** Words by which banks head their columns, in English and Norwegian, without spaces and marks. Common practice, no source. */
const HEADINGS: Readonly<Record<BankField, readonly string[]>> = {
  date: [
    "date",
    "bookingdate",
    "transactiondate",
    "valuedate",
    "dato",
    "bokfortdato",
    "bokforingsdato",
    "rentedato",
    "datum",
  ],
  amount: ["amount", "belop", "sum", "betrag", "value"],
  moneyIn: ["credit", "moneyin", "paidin", "in", "inn", "innpakonto", "innbetaling", "deposits"],
  moneyOut: ["debit", "moneyout", "paidout", "out", "ut", "utfrakonto", "utbetaling", "withdrawals"],
  text: [
    "text",
    "description",
    "details",
    "narrative",
    "tekst",
    "beskrivelse",
    "forklaring",
    "particulars",
    "message",
    "melding",
  ],
  reference: ["reference", "ref", "kid", "referanse", "kidnummer", "code", "endtoendid"],
  payer: ["payer", "from", "name", "otherparty", "avsender", "betaler", "navn", "frakonto"],
};

/** Which column probably holds which field, by its heading; a column is guessed once. An amount in one column goes before two. */
export function guessColumns(headings: readonly string[]): BankColumns {
  const free = new Map(headings.map((heading, column) => [column, bareHeading(heading)]));
  const guess: Record<BankField, number | null> = {
    date: null,
    amount: null,
    moneyIn: null,
    moneyOut: null,
    text: null,
    reference: null,
    payer: null,
  };
  const take = (fits: (heading: string, word: string) => boolean) => {
    for (const field of BANK_FIELDS) {
      if (guess[field] !== null) continue;
      const found = HEADINGS[field].flatMap((word) =>
        [...free].filter(([, heading]) => fits(heading, word)),
      )[0];
      if (!found) continue;
      guess[field] = found[0];
      free.delete(found[0]);
    }
  };
  take((heading, word) => heading === word);
  take((heading, word) => word.length >= 4 && heading.startsWith(word));
  if (guess.amount !== null) return { ...guess, moneyIn: null, moneyOut: null };
  return guess;
}
