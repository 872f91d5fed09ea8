import type { PrintedInvoice } from "../invoices/printed";
import type { EinvoicePayment } from "./einvoice";

/** UNCL4461: how it is paid; what is not named there is "not defined". */
const UNDEFINED = "1";
const CREDIT_TRANSFER = "30";
const METHODS: Readonly<Record<string, string>> = { cash: "10", card: "48" };

/**
 * How a document is paid (BG-16): by credit transfer into the shop's account with the document's number as reference where something is
 * due; by what it was paid with where it was paid as it was issued; null where neither is known or nothing is due.
 */
export function paymentOf(doc: PrintedInvoice, dueMinor: number): EinvoicePayment | null {
  const [paid] = doc.settlements;
  if (paid) return { code: METHODS[paid.method] ?? UNDEFINED, reference: doc.written, account: null };
  if (dueMinor <= 0) return null;
  const account = doc.kind === "invoice" ? (doc.einvoice?.account ?? null) : null;
  return { code: account ? CREDIT_TRANSFER : UNDEFINED, reference: doc.written, account };
}
