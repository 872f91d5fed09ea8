import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { INVOICE_ROW, jobIdOf } from "../invoices/rows";
import { countPaidIn } from "../invoices/settle";
import { addPaid, type MoneyInput, termsIn, writeMoneyIn } from "./rows";

/**
 * Money of a customer that pays nothing: it is kept as their balance, with their newest invoice that stands. Answers the row's id.
 * Refused for one who has none: there is nothing it could be kept with.
 */
export async function keepAsBalanceIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: Omit<MoneyInput, "method"> & { readonly customerId: number },
): Promise<number> {
  await termsIn(tx, shop, input.paidOn);
  const row = await tx.invoice.findFirst({
    where: { customerId: input.customerId, kind: "invoice", state: "issued", takenBack: false, saleId: null },
    select: INVOICE_ROW,
    orderBy: { id: "desc" },
  });
  if (!row)
    throw new Refusal(
      "This customer has no invoice yet that the money could be kept with.",
      "Take it as a deposit of their job, or set the line aside until there is an invoice.",
      {},
      "conflict",
    );
  const { amountMinor, paidOn, reference = "" } = input;
  const id = await writeMoneyIn(tx, shop, {
    kind: "overpayment",
    jobId: jobIdOf(row),
    invoiceId: row.id,
    method: "transfer",
    amountMinor,
    roundingMinor: 0,
    paidOn,
    reference,
  });
  await addPaid(tx, row, amountMinor);
  await countPaidIn(tx, shop, row.id);
  return id;
}
