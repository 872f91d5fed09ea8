import type { ShopTx } from "@/lib/db/shop";
import { askOf } from "@/lib/domain/invoices/paying";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import type { PayAsk } from "@/lib/domain/money/payAsk";
import { payAskFor } from "../shop/account";

/**
 * How an issued invoice's money is asked for now, on pages and in letters: to the account that the shop has now. The paper goes on
 * printing what it printed, and so does the page of a shop that says nothing any more.
 */
export async function payAskOf(
  db: Pick<ShopTx, "bankAccount" | "settings">,
  doc: PrintedInvoice,
): Promise<PayAsk> {
  if (doc.number === null) return askOf(doc);
  const now = await payAskFor(db, { kind: "invoice", number: doc.number, written: doc.written });
  return now.payTo || now.note ? now : askOf(doc);
}
