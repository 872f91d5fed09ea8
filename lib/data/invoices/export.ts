import type { ShopHandle } from "@/lib/db/shop";
import { writtenOff } from "@/lib/domain/invoices/held";
import { storedInvoice } from "../documents/invoice";
import { MOST_CREDITS } from "./rows";

/** So many are read and written out between other requests: their frozen texts are long. */
const PAGE = 100;

/** Issued documents of a stretch of days (both ends count; open where left out), in the order they were issued, page by page. */
export async function* exportedInvoices(
  shop: ShopHandle,
  days: { from?: string | undefined; to?: string | undefined },
) {
  for (let after = 0; ; ) {
    const rows = await shop.read.invoice.findMany({
      where: {
        state: "issued",
        id: { gt: after },
        issuedOn: { ...(days.from ? { gte: days.from } : {}), ...(days.to ? { lte: days.to } : {}) },
      },
      select: {
        id: true,
        frozen: true,
        paidMinor: true,
        payments: {
          where: { kind: "writeOff" },
          select: { kind: true, amountMinor: true, roundingMinor: true },
          orderBy: { id: "asc" },
          take: 200,
        },
        creditedBy: {
          select: { written: true, grossMinor: true },
          take: MOST_CREDITS,
          orderBy: { id: "asc" },
        },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const row of rows) {
      const writtenOffMinor = writtenOff(row.payments);
      yield {
        doc: storedInvoice(row.frozen),
        paidMinor: row.creditedBy.reduce(
          (paid, credit) => paid + credit.grossMinor,
          row.paidMinor - writtenOffMinor,
        ),
        writtenOffMinor,
        creditedBy: row.creditedBy.map((credit) => credit.written).join(", ") || null,
      };
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return;
    after = last.id;
  }
}
