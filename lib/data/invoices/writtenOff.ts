import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { writtenOff } from "@/lib/domain/invoices/held";

/** The rows of an invoice that say what of it was written off, for a select. */
export const WRITTEN_OFF = {
  where: { kind: "writeOff" },
  select: { kind: true, amountMinor: true, roundingMinor: true },
  orderBy: { id: "asc" },
  take: 200,
} satisfies Prisma.Invoice$paymentsArgs;

/** What of an invoice was written off, in minor units. */
export async function writtenOffIn(db: Pick<ShopTx, "payment">, invoiceId: number): Promise<number> {
  const rows = await db.payment.findMany({
    ...WRITTEN_OFF,
    where: { invoiceId, kind: "writeOff" },
  });
  return writtenOff(rows);
}
