import type { ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";

/** A sale as a write decides about it: its documents, its money, and what it took out of stock. */
export async function saleIn(tx: ShopTx, id: number) {
  const sale = await tx.sale.findUnique({
    where: { id },
    select: {
      id: true,
      invoices: {
        select: { id: true, kind: true, written: true, frozen: true, creditedBy: { select: { id: true } } },
        orderBy: { id: "asc" },
      },
      payments: {
        select: { kind: true, amountMinor: true, roundingMinor: true, paidOn: true, method: true },
        orderBy: { id: "asc" },
      },
    },
  });
  if (!sale) throw new Refusal("There is no such sale.", "Open it from the counter.", {}, "missing");
  const live = sale.invoices.find((one) => one.kind !== "creditNote" && one.creditedBy.length === 0);
  if (!live)
    throw new Refusal("This sale was taken back already.", "Nothing more is to be done.", {}, "conflict");
  return { ...sale, live };
}
