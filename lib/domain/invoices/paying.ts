import type { PayAsk } from "../money/payAsk";
import type { PrintedInvoice } from "./printed";

/** How an issued document asks for its money: as it printed it. */
export const askOf = ({ payTo, written, seller }: PrintedInvoice): PayAsk => ({
  payTo: payTo ?? null,
  reference: payTo?.reference ?? written,
  note: seller.bankDetails,
  name: seller.legalName || seller.name,
});
