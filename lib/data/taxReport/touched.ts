import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader } from "@/lib/db/shop";
import { type Days, monthsOf } from "@/lib/domain/taxReport/periods";
import { chunks } from "../common/chunks";

/** So many rows are read at once: between them other requests go on. */
const PAGE = 500;
/** So many months are read at once: most stretches are one quarter. */
export const MONTHS = 3;

/** What something of money happened to in a stretch of days: the invoices, sales and jobs whose tax may have changed by it. */
export interface Touched {
  readonly invoices: ReadonlySet<number>;
  readonly sales: ReadonlySet<number>;
  readonly jobs: ReadonlySet<number>;
}

/** The same, read in pieces by the day that each row is dated; without sales where those do not matter, since they are many. */
export async function touchedIn(read: ShopReader, days: Days, sales: boolean): Promise<Touched> {
  const of = sales ? {} : { saleId: null };
  const touched = { invoices: new Set<number>(), sales: new Set<number>(), jobs: new Set<number>() };
  const add = (to: Set<number>, id: number | null) => id !== null && to.add(id);
  const money = async ({ from, to }: Days) => {
    for await (const row of paymentsOf(read, { ...of, paidOn: { gte: from, lte: to } })) {
      if (row.saleId !== null) add(touched.sales, row.saleId);
      else if (row.invoiceId !== null) add(touched.invoices, row.invoiceId);
      else add(touched.jobs, row.jobId);
    }
  };
  const papers = async ({ from, to }: Days) => {
    for await (const row of documentsOf(read, { ...of, issuedOn: { gte: from, lte: to } })) {
      if (row.saleId !== null) add(touched.sales, row.saleId);
      else {
        add(touched.invoices, row.creditsId ?? row.id);
        add(touched.jobs, row.jobId);
        for (const { jobId } of row.furtherJobs) add(touched.jobs, jobId);
      }
    }
  };
  for (const months of chunks(monthsOf(days), MONTHS))
    await Promise.all(months.flatMap((month) => [money(month), papers(month)]));
  return touched;
}

async function* paymentsOf(read: ShopReader, where: Prisma.PaymentWhereInput) {
  for (let after: number | undefined; ; ) {
    const rows = await read.payment.findMany({
      where,
      select: { id: true, invoiceId: true, saleId: true, jobId: true },
      orderBy: [{ paidOn: "asc" }, { id: "asc" }],
      take: PAGE,
      ...(after === undefined ? {} : { cursor: { id: after }, skip: 1 }),
    });
    yield* rows;
    after = rows.at(-1)?.id;
    if (rows.length < PAGE) return;
  }
}

async function* documentsOf(read: ShopReader, where: Prisma.InvoiceWhereInput) {
  for (let after: number | undefined; ; ) {
    const rows = await read.invoice.findMany({
      where: { state: "issued", ...where },
      select: {
        id: true,
        creditsId: true,
        saleId: true,
        jobId: true,
        furtherJobs: { select: { jobId: true }, orderBy: { id: "asc" }, take: 50 },
      },
      orderBy: [{ issuedOn: "asc" }, { id: "asc" }],
      take: PAGE,
      ...(after === undefined ? {} : { cursor: { id: after }, skip: 1 }),
    });
    yield* rows;
    after = rows.at(-1)?.id;
    if (rows.length < PAGE) return;
  }
}
