import type { Mark } from "../imports/types";

/** In which order a bank writes its dates. */
export type DateOrder = "dmy" | "mdy" | "ymd";
export const DATE_ORDERS: readonly DateOrder[] = ["dmy", "mdy", "ymd"];

/** What a column of a bank's list may hold. The amount stands in one column, or what came in and what went out in two. */
export const BANK_FIELDS = ["date", "amount", "moneyIn", "moneyOut", "text", "reference", "payer"] as const;
export type BankField = (typeof BANK_FIELDS)[number];

/** Field -> column of the file from 0; null: not in the file. */
export type BankColumns = Readonly<Record<BankField, number | null>>;

export interface BankTerms {
  readonly dates: DateOrder;
  /** The decimal mark where an amount could be read in two ways. */
  readonly mark: Mark;
  readonly currency: string;
}

/** A line of a bank's list as it was understood. Money in is above zero. */
export interface BankRow {
  /** The line of the file. */
  readonly line: number;
  readonly bookedOn: string;
  readonly amountMinor: number;
  readonly text: string;
  readonly payer: string;
  /** The same for the same line of another file: what it says, and which of several alike it is. */
  readonly key: string;
  /** The same for the same row of another file, whichever columns were chosen. */
  readonly rowKey: string;
}

/** Something that a customer has to pay, or had: an invoice, or the deposit of a job. */
export interface OpenItem {
  readonly kind: "invoice" | "deposit";
  readonly id: number;
  /** The invoice's number, or the quote's, as papers write it. */
  readonly written: string;
  readonly kid: string;
  readonly customerId: number;
  readonly customerName: string;
  /** 0 where nothing is to be paid any more. */
  readonly leftMinor: number;
  /** What comes first is paid first: the day, "YYYY-MM-DD". */
  readonly since: string;
}

export interface WaitingLine {
  readonly id: number;
  readonly bookedOn: string;
  readonly amountMinor: number;
  readonly text: string;
  readonly payer: string;
}

export type Certainty = "certain" | "likely" | "possible";

/** Why something is proposed: what was found in the line, and how its amount fits. Amounts in minor units. */
export type Reason =
  | { readonly why: "reference" | "kid" | "used"; readonly written: string }
  | { readonly why: "name"; readonly name: string }
  | { readonly why: "exact" | "amountAlone" }
  | { readonly why: "sum"; readonly count: number }
  | { readonly why: "part"; readonly staysMinor: number }
  | { readonly why: "over"; readonly overMinor: number };

/** What a line probably pays. */
export interface Proposal {
  readonly lineId: number;
  readonly certainty: Certainty;
  readonly takes: readonly { readonly item: OpenItem; readonly minor: number }[];
  /** What is more than is open: the customer's balance. */
  readonly overMinor: number;
  readonly because: readonly Reason[];
}
