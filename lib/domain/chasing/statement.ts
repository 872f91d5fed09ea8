import { type PaymentKind, settled } from "../invoices/held";
import type { PrintedSeller } from "../invoices/printed";
import type { PayAsk } from "../money/payAsk";
import type { Column } from "./accountLines";

/** What a line of a statement is: a document, or money. */
export type EntryKind = "invoice" | "creditNote" | Exclude<PaymentKind, "overpayment">;

/** A line of a customer's account: owed by them above zero, in minor units. Days are "YYYY-MM-DD". */
export interface AccountEntry {
  readonly on: string;
  readonly kind: EntryKind;
  /** Numbers of the documents that it is, or that it was for: invoices, or the job of a deposit. */
  readonly numbers: readonly string[];
  /** How money moved; empty for a document. */
  readonly method: string;
  readonly reference: string;
  readonly minor: number;
}

export interface StatementEntry extends AccountEntry {
  readonly balanceMinor: number;
}

/** A customer's account over some days, both ends included. */
export interface Statement {
  readonly from: string;
  readonly to: string;
  readonly openingMinor: number;
  readonly entries: readonly StatementEntry[];
  readonly closingMinor: number;
  /** What the closing balance is made of, by age and by what the customer has coming. */
  readonly ageing: Readonly<Partial<Record<Column, number>>>;
}

/** A statement as its paper prints it. */
export interface StatementPaper extends Statement {
  /** How what is owing is to be paid; null where nothing is. */
  readonly ask: PayAsk | null;
  readonly seller: PrintedSeller;
  readonly buyer: { readonly name: string; readonly address: string; readonly taxNumber: string };
  readonly locale: string;
  readonly country: string;
  readonly currency: string;
  /** The day on which it was made. */
  readonly day: string;
}

/** A row of money as it was recorded; `act` is the same for rows of one act. */
export interface MoneyEntry {
  readonly act: string;
  readonly kind: PaymentKind;
  readonly on: string;
  readonly method: string;
  readonly reference: string;
  readonly amountMinor: number;
  readonly roundingMinor: number;
  readonly number: string;
}

/**
 * Money as the customer's bank knows it: rows of one act by one method are one line, what was paid over counted in. A balance taken
 * from one invoice to another is no money: it adds up to nothing and is left out.
 */
export function moneyEntries(rows: readonly MoneyEntry[]): AccountEntry[] {
  const acts = Map.groupBy(rows, ({ act, kind, on, method, reference }) =>
    JSON.stringify(method === "balance" ? [act, on] : [act, kindOf(kind), on, method, reference]),
  );
  return [...acts.values()].flatMap((own) => {
    const [first] = own;
    const minor = own.reduce((sum, row) => sum - settled(row), 0);
    if (!first || (first.method === "balance" && minor === 0)) return [];
    const { on, method, reference } = first;
    const numbers = [...new Set(own.map((row) => row.number))];
    return [{ on, kind: kindOf(first.kind), numbers, method, reference, minor }];
  });
}

const kindOf = (kind: PaymentKind): EntryKind => (kind === "overpayment" ? "payment" : kind);

const isDocument = ({ kind }: AccountEntry): boolean => kind === "invoice" || kind === "creditNote";

/** The lines in their order with the balance after each: by day, documents before the money of the day, as they were entered. */
export function runningBalance(openingMinor: number, entries: readonly AccountEntry[]): StatementEntry[] {
  let balanceMinor = openingMinor;
  return [...entries]
    .sort(
      (one, two) =>
        (one.on < two.on ? -1 : one.on > two.on ? 1 : 0) || Number(isDocument(two)) - Number(isDocument(one)),
    )
    .map((entry) => {
      balanceMinor += entry.minor;
      return { ...entry, balanceMinor };
    });
}
