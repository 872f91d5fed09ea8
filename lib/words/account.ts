import { languageOf } from "./language";

/** What papers about a customer's account say: statements and reminders. */
const EN = {
  statement: "Statement of account",
  day: "Date",
  from: "From",
  to: "To",
  entry: "What",
  owed: "Charged",
  paid: "Paid or credited",
  balance: "Balance",
  opening: "Balance before",
  closing: "Balance",
  owing: "To pay",
  inFavour: "To your credit",
  nothing: "Nothing is owing.",
  kinds: {
    invoice: (numbers: string) => `Invoice ${numbers}`,
    creditNote: (numbers: string) => `Credit note ${numbers}`,
    deposit: (numbers: string) => `Deposit, job ${numbers}`,
    payment: (numbers: string) => `Payment, ${numbers}`,
    refund: (numbers: string) => `Paid back to you, ${numbers}`,
    writeOff: (numbers: string) => `Not asked for any more, ${numbers}`,
    bounced: (numbers: string) => `Payment that did not come, ${numbers}`,
  },
  made: "What it is made of",
  columns: {
    notDue: "Not due yet",
    to30: "1 to 30 days late",
    to60: "31 to 60 days late",
    to90: "61 to 90 days late",
    over90: "Over 90 days late",
    balance: "Paid over",
    deposit: "Deposits",
    credit: "Left by credit notes",
  },
  payWith: "Please pay with the numbers of the invoices.",
};

export type AccountWords = typeof EN;

const NB: AccountWords = {
  statement: "Kontoutskrift",
  day: "Dato",
  from: "Fra",
  to: "Til",
  entry: "Hva",
  owed: "Belastet",
  paid: "Betalt eller kreditert",
  balance: "Saldo",
  opening: "Inngående saldo",
  closing: "Utgående saldo",
  owing: "Å betale",
  inFavour: "Til gode",
  nothing: "Ingenting er utestående.",
  kinds: {
    invoice: (numbers) => `Faktura ${numbers}`,
    creditNote: (numbers) => `Kreditnota ${numbers}`,
    deposit: (numbers) => `Forskudd, jobb ${numbers}`,
    payment: (numbers) => `Innbetaling, ${numbers}`,
    refund: (numbers) => `Tilbakebetalt, ${numbers}`,
    writeOff: (numbers) => `Kreves ikke lenger, ${numbers}`,
    bounced: (numbers) => `Innbetaling som ikke kom, ${numbers}`,
  },
  made: "Dette består den av",
  columns: {
    notDue: "Ikke forfalt",
    to30: "1 til 30 dager over forfall",
    to60: "31 til 60 dager over forfall",
    to90: "61 til 90 dager over forfall",
    over90: "Over 90 dager over forfall",
    balance: "Betalt for mye",
    deposit: "Forskudd",
    credit: "Rest av kreditnotaer",
  },
  payWith: "Merk betalingen med numrene på fakturaene.",
};

/** The words of a locale: Norwegian where it is Norwegian, English elsewhere. */
export const accountWords = (locale: string): AccountWords => (languageOf(locale) === "nb" ? NB : EN);
