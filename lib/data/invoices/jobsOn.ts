import type { ShopTx } from "@/lib/db/shop";
import type { Basis } from "@/lib/domain/invoices/printed";
import { MOST_JOBS } from "@/lib/domain/invoices/severalJobs";
import { type Db, type InvoiceFacts, invoiceFacts } from "./facts";
import { jobIdOf } from "./rows";

/** A job of an invoice, and how it is charged there. */
export interface ChargedJob {
  readonly facts: InvoiceFacts;
  readonly basis: Basis;
}

/** Every job of an invoice, the one it began with first. */
export type ChargedJobs = readonly [ChargedJob, ...ChargedJob[]];

interface Row {
  readonly id: number;
  readonly jobId: number | null;
  readonly basis: string;
}

/** The jobs that it charges beside the one it began with. */
export const furtherOn = (db: Pick<ShopTx, "invoiceJob">, invoiceId: number) =>
  db.invoiceJob.findMany({
    where: { invoiceId },
    select: { jobId: true, basis: true },
    orderBy: { id: "asc" },
    take: MOST_JOBS,
  });

/** The jobs that a draft charges, with all that it is made from. */
export async function jobsOn(db: Db & Pick<ShopTx, "invoiceJob">, row: Row): Promise<ChargedJobs> {
  const first = { facts: await invoiceFacts(db, jobIdOf(row)), basis: row.basis as Basis };
  const further: ChargedJob[] = [];
  for (const { jobId, basis } of await furtherOn(db, row.id))
    further.push({ facts: await invoiceFacts(db, jobId), basis: basis as Basis });
  return [first, ...further];
}

/** Ids of the jobs of a draft or an issued document, the one it began with first; none for a counter sale. */
export async function jobIdsOn(
  db: Pick<ShopTx, "invoiceJob">,
  row: { readonly id: number; readonly jobId: number | null },
): Promise<number[]> {
  if (row.jobId === null) return [];
  return [row.jobId, ...(await furtherOn(db, row.id)).map((one) => one.jobId)];
}
