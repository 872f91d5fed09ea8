import type { AccountMap, LedgerAccount } from "./accounts";
import type { EntrySource, LedgerCustomer, LedgerEvent, MoneyMoved } from "./events";
import type { LedgerEntry, LineTax, Posting } from "./post";

/** A shop's accounts and what goes to which of them. */
export interface Chart {
  readonly accounts: readonly LedgerAccount[];
  readonly uses: AccountMap;
}

export interface BookedLine {
  readonly account: LedgerAccount;
  /** A debit; below zero a credit. */
  readonly minor: number;
  /** True for what is owed by or to a customer. */
  readonly ofCustomer: boolean;
  readonly tax?: LineTax;
}

/** An entry as the journal shows it. */
export interface BookedEntry {
  /** Known by this for good: "document 12", "payment 5". */
  readonly key: string;
  readonly journal: LedgerEvent["is"];
  readonly day: string;
  /** As it is named: "Invoice 2001", "Payment 5". */
  readonly name: string;
  readonly text: string;
  readonly customer: LedgerCustomer | null;
  readonly source: EntrySource;
  readonly lines: readonly BookedLine[];
}

const DOCUMENT_NAMES = { invoice: "Invoice", creditNote: "Credit note", receipt: "Receipt" } as const;
const PAYMENT_TEXTS: Readonly<Record<MoneyMoved["kind"], string>> = {
  deposit: "Deposit",
  payment: "Payment",
  refund: "Money given back",
  writeOff: "Written off",
  bounced: "Payment that did not come",
  overpayment: "Paid over what was due",
};
const STOCK_TEXTS = {
  received: "Parts received",
  used: "Parts used or sold",
  opening: "Stock there was at the start",
  difference: "Stock counted, scrapped or divided",
} as const;

/** Books entries on a shop's accounts. Throws a TypeError for a use whose account is not there. */
export function booker({ accounts, uses }: Chart): (entry: LedgerEntry) => BookedEntry {
  const known = new Map(accounts.map((account) => [account.code, account]));
  const line = ({ use, minor, tax }: Posting): BookedLine => {
    const account = known.get(uses[use]);
    if (!account) throw new TypeError(`No account takes "${use}".`);
    const ofCustomer = use === "receivable" || use === "deposits" || use === "customerBalance";
    return { account, minor, ofCustomer, ...(tax ? { tax } : {}) };
  };
  return ({ event, lines }) => ({
    ...named(event),
    journal: event.is,
    day: event.day,
    customer: event.customer,
    source: event.source,
    lines: lines.map(line),
  });
}

function named(event: LedgerEvent): Pick<BookedEntry, "key" | "name" | "text"> {
  switch (event.is) {
    case "document":
      return {
        key: `document ${event.id}`,
        name: `${DOCUMENT_NAMES[event.kind]} ${event.written}`,
        text: event.customer?.name ?? "walk-in",
      };
    case "payment": {
      const by = event.kind === "writeOff" ? "" : ` by ${event.method}`;
      const why = event.reference ? `: ${event.reference}` : "";
      return {
        key: `payment ${event.id}`,
        name: `Payment ${event.id}`,
        text: `${PAYMENT_TEXTS[event.kind]}${by}, ${event.about}${why}`,
      };
    }
    case "drawer":
      return {
        key: `drawer ${event.what} ${event.id}`,
        name: event.what === "count" ? `End of day ${event.day}` : `Drawer ${event.id}`,
        text: event.reason,
      };
    case "stock":
      return {
        key: `stock ${event.day} ${event.cause} ${event.source.noun} ${event.source.id}`,
        name: `Stock ${event.day}`,
        text: `${STOCK_TEXTS[event.cause]}, ${event.about}`,
      };
  }
}
