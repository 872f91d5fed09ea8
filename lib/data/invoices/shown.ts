import type { ShopHandle } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";

export interface ShownInvoice {
  readonly doc: FrozenInvoice;
  /** What is still to be paid now; the document itself says what was due when it was issued. */
  readonly leftMinor: number;
  /** Number of the credit note that takes it back. */
  readonly creditedWith: string | null;
}

/** An issued document as its customer sees it by link; null where there is none. */
export async function shownInvoice(shop: ShopHandle, id: number): Promise<ShownInvoice | null> {
  const row = await shop.read.invoice.findUnique({
    where: { id },
    select: {
      kind: true,
      state: true,
      dueOn: true,
      grossMinor: true,
      prepaidMinor: true,
      paidMinor: true,
      frozen: true,
      creditedBy: { select: { written: true }, orderBy: { id: "asc" }, take: 1 },
    },
  });
  if (row?.state !== "issued") return null;
  const credit = row.creditedBy[0];
  return {
    doc: storedInvoice(row.frozen),
    leftMinor: outstanding({ ...row, credited: credit !== undefined }),
    creditedWith: credit?.written ?? null,
  };
}
