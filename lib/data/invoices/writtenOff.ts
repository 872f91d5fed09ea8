import type { ShopTx } from "@/lib/db/shop";
import { writtenOff } from "@/lib/domain/invoices/held";

/** What of an invoice was written off, in minor units. */
export async function writtenOffIn(db: Pick<ShopTx, "payment">, invoiceId: number): Promise<number> {
  const rows = await db.payment.findMany({
    where: { invoiceId, kind: "writeOff" },
    select: { kind: true, amountMinor: true, roundingMinor: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  return writtenOff(rows);
}
