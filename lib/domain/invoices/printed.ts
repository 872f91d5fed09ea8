import type { PayTo } from "../money/payAsk";
import type { PriceLine, TaxSubtotal } from "../pricing/facts";
import type { PrintedEinvoice } from "./printedEinvoice";

/** A line as a customer may see it: what it cost the shop stays out. */
export type PrintedLine = Omit<PriceLine, "costMinor">;

export type Basis = "fixed" | "asWorked";

export type DocumentKind = "invoice" | "creditNote" | "receipt";

export interface PrintedSeller {
  readonly name: string;
  readonly legalName: string;
  readonly taxNumber: string;
  /** What the number is called under the regime: ABN, VAT number. */
  readonly numberName: string;
  /** What the law wants after it; absent in documents from before that was kept. */
  readonly numberMarks?: readonly string[];
  readonly address: string;
  readonly phone: string;
  readonly email: string;
  readonly bankDetails: string;
}

export interface PrintedBuyer {
  readonly name: string;
  readonly address: string;
  readonly taxNumber: string;
  readonly business: boolean;
}

/** A job that a document charges, and its bike. */
export interface PrintedJob {
  readonly number: string;
  readonly title: string;
  readonly bike: {
    readonly name: string;
    readonly plate: string;
    readonly frameNumber: string;
    readonly odometerKm: number | null;
    /** The unit system in which the shop reads odometers; documents issued before this was kept have none. */
    readonly odometerUnits?: string;
  };
}

/** Money that changed hands by one method as a counter sale was made, or went back as it was returned. All of it is positive. */
export interface PrintedSettlement {
  readonly method: string;
  readonly amountMinor: number;
  /** What cash rounding added to the total or took from it (BT-114). */
  readonly roundingMinor: number;
  readonly givenMinor: number;
  readonly changeMinor: number;
}

export interface PrintedDeposit {
  readonly paidOn: string;
  readonly method: string;
  /** Money in is positive, money given back negative. */
  readonly amountMinor: number;
  /** Number of the job that it was paid for, on an invoice of several. */
  readonly job?: string;
}

/** What a credit note takes of one line of its invoice: both are counted as the invoice counts them, not mirrored. */
export interface CreditTake {
  readonly key: string;
  /** Thousandths of the line's unit; 0 where only an amount comes off. */
  readonly quantityMilli: number;
  /** In minor units, as the invoice shows prices. */
  readonly shownMinor: number;
}

/** Everything an invoice, a receipt or a credit note prints. Money in minor units, days as "YYYY-MM-DD"; a credit note's amounts are negative. */
export interface PrintedInvoice {
  readonly kind: DocumentKind;
  /** Null while a draft. */
  readonly number: number | null;
  /** The number as it is written, with its prefix and year; empty while a draft. */
  readonly written: string;
  readonly title: string;
  readonly issuedOn: string;
  readonly dueOn: string;
  /** The day the work was finished, or the parts were handed over. */
  readonly supplyOn: string;
  readonly basis: Basis | "counter";
  /** What a credit note takes back, and why. */
  readonly credits: {
    readonly kind: "invoice" | "receipt";
    readonly number: number;
    readonly written: string;
    readonly issuedOn: string;
    readonly reason: string;
  } | null;
  /** How much a credit note of a part takes of each line of its invoice; absent: all of it. */
  readonly takes?: readonly CreditTake[];
  readonly seller: PrintedSeller;
  /** Where its money is paid to; absent where the shop has entered no account in fields, or nothing is asked. */
  readonly payTo?: PayTo;
  readonly buyer: PrintedBuyer;
  /** Empty for parts sold over the counter. */
  readonly jobs: readonly PrintedJob[];
  readonly quotes: readonly string[];
  /** One for each method of paying, as the document was issued; none where it is paid later. */
  readonly settlements: readonly PrintedSettlement[];
  readonly country: string;
  readonly locale: string;
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly lines: readonly PrintedLine[];
  readonly taxes: readonly TaxSubtotal[];
  readonly netMinor: number;
  readonly taxMinor: number;
  readonly grossMinor: number;
  readonly prepaidMinor: number;
  readonly dueMinor: number;
  readonly deposits: readonly PrintedDeposit[];
  readonly note: string;
  /** What its e-invoice says besides; absent: it has none. */
  readonly einvoice?: PrintedEinvoice;
  /** What the regime asks of a document of this size, and by which rule. */
  readonly rule: { readonly tier: string; readonly source: string };
}
