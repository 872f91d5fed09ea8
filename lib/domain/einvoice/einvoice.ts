import type { EinvoiceProfile, PrintedParty } from "../invoices/printedEinvoice";
import type { DocumentTotals } from "../money/document";

/** An e-invoice in the terms of EN 16931; the comments give the business term. Money in minor units; quantities, prices and rates are decimal texts. */
export interface Einvoice {
  readonly kind: "invoice" | "creditNote";
  readonly profile: EinvoiceProfile;
  /** BT-24 */ readonly customization: string;
  /** BT-23, empty for none */ readonly process: string;
  /** What the tax is called: VAT or GST. */
  readonly taxScheme: string;
  /** BT-1 */ readonly number: string;
  /** BT-2 */ readonly issuedOn: string;
  /** BT-9 */ readonly dueOn: string;
  /** BT-22 */ readonly note: string;
  /** BT-5 */ readonly currency: string;
  /** BT-10 */ readonly buyerReference: string;
  /** BT-13 */ readonly orderNumber: string;
  /** BT-122 and BT-123: the quotes that were accepted */
  readonly quotes: readonly { readonly number: string; readonly name: string }[];
  /** BG-3: what a credit note takes back */
  readonly credits: { readonly number: string; readonly issuedOn: string } | null;
  /** BT-72 */ readonly deliveredOn: string;
  readonly seller: EinvoiceParty;
  readonly buyer: EinvoiceParty;
  /** BG-16, null where nothing is to be paid */ readonly payment: EinvoicePayment | null;
  /** BT-20, empty for none */ readonly terms: string;
  /** BG-20 */ readonly allowances: readonly EinvoiceAdjustment[];
  /** BG-21 */ readonly charges: readonly EinvoiceAdjustment[];
  /** BG-23 */ readonly taxes: readonly EinvoiceTax[];
  /** BG-22 */ readonly totals: Omit<DocumentTotals, "taxes">;
  /** BG-25 */ readonly lines: readonly EinvoiceLine[];
}

/** BG-4, BG-7. */
export interface EinvoiceParty extends PrintedParty {
  /** BT-27, BT-44: the name that the law knows */ readonly name: string;
  /** BT-28, BT-45 */ readonly tradingName: string;
  /** The address as it was written, line by line; counts where no street and town were entered apart. */
  readonly lines: readonly string[];
  readonly phone: string;
  readonly email: string;
  /** BT-32: another register of taxpayers or companies that the law wants named; empty for none */
  readonly registered: string;
}

export interface EinvoicePayment {
  /** BT-81, a code of UNCL4461 */ readonly code: string;
  /** BT-83, empty for none */ readonly reference: string;
  /** BG-17; null while the shop's bank details are words alone */ readonly account: EinvoiceAccount | null;
}

/** The account that is paid into. */
export interface EinvoiceAccount {
  /** BT-84: IBAN, or the account's number in its country */ readonly id: string;
  /** BT-85 */ readonly name: string;
  /** BT-86: BIC, BSB, sort code or routing number; empty for none */ readonly branch: string;
}

export interface TaxCode {
  /** A code of UNCL5305 */ readonly category: string;
  /** Per cent; null outside the tax's scope, where none is said (BR-O-05). */ readonly percent:
    | string
    | null;
}

/** An allowance or a charge on the document or on a line. */
export interface EinvoiceAdjustment extends TaxCode {
  readonly amountMinor: number;
  readonly reason: string;
}

export interface EinvoiceTax extends TaxCode {
  /** BT-116 */ readonly taxableMinor: number;
  /** BT-117 */ readonly taxMinor: number;
  /** BT-120, empty for none */ readonly reason: string;
}

export interface EinvoiceLine extends TaxCode {
  /** BT-126 */ readonly id: string;
  /** BT-127, empty for none */ readonly note: string;
  /** BT-129 */ readonly quantity: string;
  /** BT-130 */ readonly unit: string;
  /** BT-131 */ readonly netMinor: number;
  /** BG-27 */ readonly allowances: readonly EinvoiceAdjustment[];
  /** BG-28 */ readonly charges: readonly EinvoiceAdjustment[];
  /** BT-153 */ readonly name: string;
  /** BT-146 */ readonly price: string;
  /** BT-149; null where the price is for one */ readonly baseQuantity: string | null;
}
