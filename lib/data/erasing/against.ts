import type { ShopHandle } from "@/lib/db/shop";
import { balanceOf } from "../payments/balance";
import { openInvoices } from "../payments/several";

const OVER = ["closed", "cancelled"] as const;

/** Why a customer's data cannot be erased yet: a sentence for each thing that is open. */
export async function againstErasing(shop: ShopHandle, customerId: number): Promise<string[]> {
  const where = { customerId };
  const [jobs, drafts, bookings, due, balance] = await Promise.all([
    shop.read.job.findMany({
      where: { ...where, state: { notIn: [...OVER] } },
      select: { number: true, title: true, state: true },
      orderBy: { id: "asc" },
      take: 20,
    }),
    shop.read.invoice.count({ where: { ...where, state: "draft" } }),
    shop.read.booking.count({ where: { ...where, state: "held", endsAt: { gt: shop.now } } }),
    openInvoices(shop, customerId),
    balanceOf(shop, customerId),
  ]);
  return [
    ...due.map(({ written }) => `Invoice ${written} is not paid.`),
    ...jobs
      .filter(({ state }) => state !== "invoiced" || due.length === 0)
      .map(({ number, title }) => `Job ${number}, ${title}, is not closed.`),
    ...(drafts ? [`${drafts === 1 ? "An invoice is" : `${drafts} invoices are`} still a draft.`] : []),
    ...(bookings ? [`${bookings === 1 ? "A booking is" : `${bookings} bookings are`} still to come.`] : []),
    ...(balance > 0 ? ["A balance is owed to them: pay it back or use it first."] : []),
  ];
}

/** What of a customer stays when their data is erased: documents that the law keeps. */
export async function staysOf(shop: ShopHandle, customerId: number) {
  const [documents, acceptances, agreed] = await Promise.all([
    shop.read.invoice.count({ where: { customerId, state: "issued" } }),
    shop.read.acceptance.count({ where: { revision: { quote: { customerId } } } }),
    shop.read.job.count({ where: { customerId } }),
  ]);
  return { documents, acceptances, jobs: agreed };
}
