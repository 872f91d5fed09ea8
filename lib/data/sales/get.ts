import type { ShopHandle } from "@/lib/db/shop";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { dayIn } from "@/lib/domain/schedule/days";
import { storedInvoice } from "../documents/invoice";
import { laterThan } from "../invoices/order";

const DOCUMENT = {
  id: true,
  kind: true,
  number: true,
  written: true,
  issuedOn: true,
  grossMinor: true,
  customer: { select: { id: true, name: true, email: true } },
  creditedBy: { select: { id: true, written: true }, orderBy: { id: "asc" }, take: 1 },
} as const;

export type SaleView = NonNullable<Awaited<ReturnType<typeof getSale>>>;

/** One sale for its page: the document that stands (or stood last), all its documents, its money and its parts. */
export async function getSale(shop: ShopHandle, id: number) {
  const sale = await shop.read.sale.findUnique({
    where: { id },
    select: {
      id: true,
      soldAt: true,
      invoices: { select: { ...DOCUMENT, frozen: true }, orderBy: { id: "asc" } },
      payments: {
        select: {
          id: true,
          kind: true,
          method: true,
          amountMinor: true,
          roundingMinor: true,
          paidOn: true,
          reference: true,
          reversesId: true,
        },
        orderBy: { id: "asc" },
      },
    },
  });
  if (!sale) return null;
  const { zone, cashRoundingMinor } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, cashRoundingMinor: true },
  });
  const sold = sale.invoices.filter((one) => one.kind !== "creditNote");
  const live = sold.find((one) => one.creditedBy.length === 0);
  const shown = live ?? sold.at(-1);
  if (!shown) return null;
  const moves = await shop.read.move.findMany({
    where: { saleId: id, kind: "use" },
    select: { partId: true, quantityMilli: true, part: { select: { code: true, name: true, unit: true } } },
    orderBy: { id: "asc" },
  });
  const today = dayIn(zone, shop.now);
  return {
    id: sale.id,
    soldAt: sale.soldAt,
    documents: sale.invoices.map(({ frozen: _, ...one }) => one),
    payments: sale.payments,
    doc: storedInvoice(shown.frozen),
    shown: { id: shown.id, kind: shown.kind, written: shown.written, customer: shown.customer },
    takenBack: live === undefined,
    depositLeftMinor: depositLeftOf(sale.payments),
    parts: [...Map.groupBy(moves, (move) => move.partId)].flatMap(([partId, own]) => {
      const part = own[0]?.part;
      const quantityMilli = own.reduce((sum, move) => sum - move.quantityMilli, 0);
      return part ? [{ partId, ...part, quantityMilli }] : [];
    }),
    cashRoundingMinor,
    today,
    later: await laterThan(shop.read, today),
  };
}

/** The newest documents of sales over the counter. */
export async function recentSales(shop: ShopHandle, take = 12) {
  return shop.read.invoice.findMany({
    where: { saleId: { not: null } },
    select: { ...DOCUMENT, saleId: true, createdAt: true },
    orderBy: { id: "desc" },
    take,
  });
}
