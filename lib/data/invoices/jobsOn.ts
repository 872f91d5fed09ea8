import type { ShopTx } from "@/lib/db/shop";
import type { Basis } from "@/lib/domain/invoices/printed";
import { MOST_JOBS } from "@/lib/domain/invoices/severalJobs";
import { type KeptLines, storedKept } from "../documents/kept";
import { type BasisLines, costless } from "./basis";
import { type Db, type InvoiceFacts, invoiceFacts } from "./facts";
import { jobIdOf } from "./rows";

/** A job of an invoice, and how it is charged there. */
export interface ChargedJob {
  readonly facts: InvoiceFacts;
  readonly basis: Basis;
  /** What it is charged instead, where the draft corrects an invoice. */
  readonly kept?: BasisLines;
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
export async function jobsOn(
  db: Db & Pick<ShopTx, "invoice" | "invoiceJob">,
  row: Row,
): Promise<ChargedJobs> {
  const { kept: json } = await db.invoice.findUniqueOrThrow({
    where: { id: row.id },
    select: { kept: true },
  });
  const kept = storedKept(json);
  const charged = async (jobId: number, basis: string): Promise<ChargedJob> =>
    withKept({ facts: await invoiceFacts(db, jobId), basis: basis as Basis }, kept);
  const first = await charged(jobIdOf(row), row.basis);
  const further: ChargedJob[] = [];
  for (const { jobId, basis } of await furtherOn(db, row.id)) further.push(await charged(jobId, basis));
  return [first, ...further];
}

/** A job with what stayed of it on the invoice that a draft corrects. */
export function withKept(charged: ChargedJob, kept: KeptLines | null): ChargedJob {
  const own = kept?.jobs.find((job) => job.number === charged.facts.job.number);
  if (!kept || !own) return charged;
  const { currency, pricesIncludeTax, taxRegime, quotes } = kept;
  return {
    ...charged,
    kept: { lines: own.lines.map(costless), currency, pricesIncludeTax, taxRegime, quotes },
  };
}

/** Ids of the jobs of a draft or an issued document, the one it began with first; none for a counter sale. */
export async function jobIdsOn(
  db: Pick<ShopTx, "invoiceJob">,
  row: { readonly id: number; readonly jobId: number | null },
): Promise<number[]> {
  if (row.jobId === null) return [];
  return [row.jobId, ...(await furtherOn(db, row.id)).map((one) => one.jobId)];
}
