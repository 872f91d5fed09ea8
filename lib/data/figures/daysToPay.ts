import type { ShopHandle } from "@/lib/db/shop";
import { type DayRange, daysIn } from "@/lib/domain/schedule/ranges";

/** So many payments are looked through, the oldest first. */
const MOST = 5_000;
const PAGE = 500;

export interface PaidInvoice {
  readonly id: number;
  readonly invoiceId: number;
  readonly written: string;
  readonly customer: string;
  readonly issuedOn: string;
  readonly paidOn: string;
  /** From the day of issue to the day the money came; nothing where it came before. */
  readonly days: number;
  readonly amountMinor: number;
}

/**
 * Payments of job invoices that came in a range, and the days to pay that they make: each payment's days weighed by its amount; null
 * where none came. Deposits came before an invoice and sales are paid at once: neither counts. `cut`: there are more.
 */
export async function paidIn(shop: ShopHandle, range: DayRange) {
  const rows: PaidInvoice[] = [];
  for (let after = 0; rows.length < MOST; ) {
    const page = await shop.read.payment.findMany({
      where: {
        id: { gt: after },
        kind: "payment",
        paidOn: { gte: range.from, lte: range.to },
        saleId: null,
        invoiceId: { not: null },
      },
      select: {
        id: true,
        paidOn: true,
        amountMinor: true,
        invoice: {
          select: { id: true, written: true, issuedOn: true, customer: { select: { name: true } } },
        },
      },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { invoice, ...payment } of page) {
      if (!invoice?.issuedOn) continue;
      const { id, written, issuedOn, customer } = invoice;
      const days = Math.max(0, daysIn({ from: issuedOn, to: payment.paidOn }) - 1);
      rows.push({ ...payment, invoiceId: id, written, issuedOn, customer: customer?.name ?? "", days });
    }
    const last = page.at(-1);
    if (!last || page.length < PAGE) break;
    after = last.id;
  }
  const whole = rows.reduce((sum, row) => sum + row.amountMinor, 0);
  const weighed = rows.reduce((sum, row) => sum + row.amountMinor * row.days, 0);
  return { rows, amountMinor: whole, days: whole > 0 ? weighed / whole : null, cut: rows.length >= MOST };
}
