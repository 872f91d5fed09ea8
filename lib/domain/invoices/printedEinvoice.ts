/** A number with the list it is of: an ISO 6523 code for registers, a code of the EAS list for electronic addresses; "" where it has none. */
export interface SchemedId {
  readonly scheme: string;
  readonly id: string;
}

/** What an e-invoice says of a seller or a buyer beside what the paper says. */
export interface PrintedParty {
  readonly street: string;
  readonly city: string;
  readonly postcode: string;
  /** ISO 3166-1 alpha-2. */
  readonly country: string;
  /** The number in the country's register of businesses: ABN, NZBN, organisation number. */
  readonly register: SchemedId | null;
  /** The number for VAT or GST as an e-invoice writes it; empty for none. */
  readonly taxId: string;
  /** Where e-invoices are sent to. */
  readonly address: SchemedId | null;
}

/**
 * Which rules an e-invoice keeps to: "pint" is PINT A-NZ, between businesses of Australia and New Zealand; "peppol" Peppol BIS
 * Billing 3, in Europe; "core" EN 16931 alone.
 */
export type EinvoiceProfile = "pint" | "peppol" | "core";

/** What a document needs besides to be an e-invoice: frozen with it, so that its e-invoice never changes. */
export interface PrintedEinvoice {
  readonly profile: EinvoiceProfile;
  readonly seller: PrintedParty;
  readonly buyer: PrintedParty;
  /** What the buyer asked to be quoted with every invoice (BT-10); empty for nothing. */
  readonly buyerReference: string;
  /** Number of the buyer's order (BT-13); empty for none. */
  readonly orderNumber: string;
}
