import type { ShopHandle } from "@/lib/db/shop";
import { outstanding } from "@/lib/domain/invoices/state";
import type { PayAsk } from "@/lib/domain/money/payAsk";
import { type FrozenInvoice, storedInvoice } from "../documents/invoice";
import { payAskOf } from "./paying";
import { MOST_CREDITS } from "./rows";
import { writtenOffIn } from "./writtenOff";

export interface ShownInvoice {
  readonly doc: FrozenInvoice;
  /** What is still to be paid now; the document itself says what was due when it was issued. */
  readonly leftMinor: number;
  /** Where what is left is paid to now. */
  readonly ask: PayAsk;
  /** Some of it was written off: nothing is asked for it. */
  readonly writtenOff: boolean;
  /** Numbers of the credit notes that took all of it back; empty while some of it stands. */
  readonly creditedWith: string;
  /** Credit notes of parts of it, with what each takes off, in minor units. */
  readonly credits: readonly { readonly written: string; readonly minor: number }[];
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
      takenBack: true,
      creditedBy: {
        select: { written: true, grossMinor: true },
        orderBy: { id: "asc" },
        take: MOST_CREDITS,
      },
    },
  });
  if (row?.state !== "issued") return null;
  const doc = storedInvoice(row.frozen);
  return {
    doc,
    ask: await payAskOf(shop.read, doc),
    writtenOff: (await writtenOffIn(shop.read, id)) > 0,
    leftMinor: outstanding({ ...row, credited: row.takenBack }),
    creditedWith: row.takenBack ? row.creditedBy.map((credit) => credit.written).join(", ") : "",
    credits: row.takenBack
      ? []
      : row.creditedBy.map(({ written, grossMinor }) => ({ written, minor: 0 - grossMinor })),
  };
}
