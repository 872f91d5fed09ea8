import { languageOf } from "./language";

const en = {
  title: { depositRequest: "Deposit request", received: "Receipt of payment", paidBack: "Repayment" },
  number: {
    depositRequest: (number: string) => `Quote ${number}`,
    received: (number: string) => `Payment ${number}`,
    paidBack: (number: string) => `Payment ${number}`,
  },
  what: "For",
  invoice: (number: string) => `Invoice ${number}`,
  job: (number: string, title: string) => `Deposit, job ${number}: ${title}`,
  back: (number: string, title: string) => `Job ${number}: ${title}`,
  balance: "Kept as your balance",
  how: "How",
  amount: "Amount",
  agreed: "Agreed price with tax",
  total: { depositRequest: "Deposit to pay", received: "Received", paidBack: "Paid back" },
  why: "Why",
  /** It is no tax invoice. */
  comesOff: "It is taken off the invoice when the work is done.",
};

type MoneyPaperWords = typeof en;

const nb: MoneyPaperWords = {
  title: {
    depositRequest: "Betalingsanmodning, forskudd",
    received: "Kvittering for betaling",
    paidBack: "Tilbakebetaling",
  },
  number: {
    depositRequest: (number) => `Tilbud ${number}`,
    received: (number) => `Betaling ${number}`,
    paidBack: (number) => `Betaling ${number}`,
  },
  what: "Gjelder",
  invoice: (number) => `Faktura ${number}`,
  job: (number, title) => `Forskudd, jobb ${number}: ${title}`,
  back: (number, title) => `Jobb ${number}: ${title}`,
  balance: "Står til gode for deg",
  how: "Hvordan",
  amount: "Beløp",
  agreed: "Avtalt pris med mva.",
  total: { depositRequest: "Forskudd å betale", received: "Mottatt", paidBack: "Tilbakebetalt" },
  why: "Hvorfor",
  comesOff: "Det trekkes fra på fakturaen når arbeidet er gjort.",
};

/** The words of papers about money that are no invoices. */
export const moneyPaperWords = (locale: string): MoneyPaperWords => ({ en, nb })[languageOf(locale)];
