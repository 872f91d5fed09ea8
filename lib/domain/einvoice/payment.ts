import type { PrintedInvoice } from "../invoices/printed";
import type { PayTo } from "../money/payAsk";
import type { EinvoiceAccount, EinvoicePayment } from "./einvoice";

/** UNCL4461: how it is paid. */
const UNDEFINED = "1";
const CREDIT_TRANSFER = "30";
const SEPA_TRANSFER = "58";
const METHODS: Readonly<Record<string, string>> = { cash: "10", card: "48" };

/**
 * How a document is paid (BG-16): by what it was paid with where it was paid as it was issued; else, where something is due, by credit
 * transfer into the account that it prints, with the reference that it prints. Null where nothing is due.
 */
export function paymentOf(doc: PrintedInvoice, dueMinor: number): EinvoicePayment | null {
  const [paid] = doc.settlements;
  if (paid) return { code: METHODS[paid.method] ?? UNDEFINED, reference: doc.written, account: null };
  if (dueMinor <= 0) return null;
  const { payTo, written } = doc;
  if (!payTo) return { code: UNDEFINED, reference: written, account: null };
  const code = payTo.iban !== "" && doc.currency === "EUR" ? SEPA_TRANSFER : CREDIT_TRANSFER;
  return { code, reference: payTo.reference, account: accountOf(payTo) };
}

/** An IBAN with its BIC where there is one; else the number as its country has it. New Zealand's begins with bank and branch. */
function accountOf({ form, iban, bic, branch, number, holder }: PayTo): EinvoiceAccount {
  if (iban !== "") return { id: iban, name: holder, branch: bic };
  return form === "nz"
    ? { id: `${branch}${number}`, name: holder, branch: "" }
    : { id: number, name: holder, branch };
}
