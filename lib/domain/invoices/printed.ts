import type { PriceLine, TaxSubtotal } from "../pricing/facts";

/** A line as a customer may see it: what it cost the shop stays out. */
export type PrintedLine = Omit<PriceLine, "costMinor">;

export type Basis = "fixed" | "asWorked";

export interface PrintedSeller {
  readonly name: string;
  readonly legalName: string;
  readonly taxNumber: string;
  /** What the number is called under the regime: ABN, VAT number. */
  readonly numberName: string;
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

export interface PrintedDeposit {
  readonly paidOn: string;
  readonly method: string;
  /** Money in is positive, money given back negative. */
  readonly amountMinor: number;
}

/** Everything an invoice or credit note prints. Money in minor units, days as "YYYY-MM-DD"; a credit note's amounts are negative. */
export interface PrintedInvoice {
  readonly kind: "invoice" | "creditNote";
  /** Null while a draft. */
  readonly number: number | null;
  readonly title: string;
  readonly issuedOn: string;
  readonly dueOn: string;
  /** The day the work was finished. */
  readonly supplyOn: string;
  readonly basis: Basis;
  /** The invoice that a credit note takes back, and why. */
  readonly credits: { readonly number: number; readonly issuedOn: string; readonly reason: string } | null;
  readonly seller: PrintedSeller;
  readonly buyer: PrintedBuyer;
  readonly job: { readonly number: number; readonly title: string };
  readonly quotes: readonly number[];
  readonly bike: {
    readonly name: string;
    readonly plate: string;
    readonly frameNumber: string;
    readonly odometerKm: number | null;
  };
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
  /** What the regime asks of a document of this size, and by which rule. */
  readonly rule: { readonly tier: string; readonly source: string };
}
