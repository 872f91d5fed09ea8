import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit, nextWritten } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { InvoiceEdit } from "@/lib/domain/invoices/edits";
import { jobOfKey } from "@/lib/domain/invoices/severalJobs";
import { sharesOf } from "@/lib/domain/invoices/shares";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { IssueInvoice } from "@/lib/schemas/invoices";
import { hashOf } from "../common/hash";
import { type FrozenInvoice, frozenOf } from "../documents/invoice";
import { demandEinvoice, withEinvoice } from "../einvoice/printed";
import { markInvoicedIn } from "../jobs/states";
import { payToFor } from "../shop/account";
import { recordMoveIn } from "../stock/moves";
import { demandInsideYes } from "./byWord";
import { composeInvoice, demandComplete } from "./compose";
import { figuresOf } from "./draft";
import { editsOf } from "./edits";
import { type ChargedJobs, jobsOn } from "./jobsOn";
import { demandLater } from "./order";
import { changedTotal, demandInvoiceDraft, invoiceIn } from "./rows";
import { countPaidIn } from "./settle";

export const FIRST_INVOICE = 2001;

/**
 * Issues a draft for good: composed from what stands now, checked against the regime, numbered without a gap, frozen and
 * hashed; the job is invoiced. Cannot be undone, only credited. Answers the invoice's id.
 */
export async function issueInvoice(
  shop: ShopHandle,
  input: IssueInvoice & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) => once(tx, shop, "issued an invoice", input, () => issueIn(tx, shop, input)));
}

async function issueIn(tx: ShopTx, shop: ShopHandle, input: IssueInvoice): Promise<number> {
  const row = await invoiceIn(tx, input.id);
  demandInvoiceDraft(row, input.version);
  const jobs = await jobsOn(tx, row);
  const edits = await editsOf(tx, row.id);
  const printed = await withEinvoice(
    tx,
    { customerId: row.customerId, invoiceId: row.id },
    composeInvoice(jobs, shop.now, edits),
  );
  demandInsideYes(jobs, printed);
  demandComplete(printed);
  demandEinvoice(printed);
  if (input.shownMinor !== undefined && input.shownMinor !== printed.grossMinor)
    throw changedTotal(input.shownMinor, printed.grossMinor, printed);
  const order = await demandLater(tx, printed.issuedOn, input.earlier === "on");
  const taken = await nextWritten(tx, shop, "invoice", FIRST_INVOICE);
  const payTo = payToFor(jobs[0].facts.account, { kind: "invoice", ...taken });
  const frozen = frozenOf({ ...printed, ...taken, ...(payTo && printed.dueMinor > 0 ? { payTo } : {}) });
  await demandOne(
    tx.invoice.updateMany({
      where: { id: row.id, state: "draft", version: row.version },
      data: { ...issued(frozen), ...figuresOf(frozen), searchKey: findBy(frozen), version: { increment: 1 } },
    }),
    () =>
      new Refusal("This draft has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
  await tx.documentShare.createMany({
    data: sharesOf(frozen).map((share) => ({ ...share, invoiceId: row.id })),
  });
  await takeAddedPartsIn(tx, shop, jobs, edits, frozen.written);
  for (const { facts } of jobs) await markInvoicedIn(tx, shop, facts.job.id);
  await audit(tx, shop, "issued", "invoice", row.id, {
    number: frozen.written,
    grossMinor: frozen.grossMinor,
    ...(edits.length > 0 ? { changedLines: edits.length } : {}),
    ...order,
  });
  await countPaidIn(tx, shop, row.id);
  return row.id;
}

/** Takes the parts of lines added by hand from stock, for the job that each is of. Refused where one is not free. */
async function takeAddedPartsIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobs: ChargedJobs,
  edits: readonly InvoiceEdit[],
  written: string,
): Promise<void> {
  for (const { key, act, line } of edits) {
    if (act !== "add" || line?.partId === undefined) continue;
    const { job: number } = jobOfKey(key);
    const of = jobs.find(({ facts }) => facts.job.number === number) ?? jobs[0];
    await recordMoveIn(tx, shop, {
      partId: line.partId,
      kind: "use",
      quantityMilli: line.quantityMilli,
      jobId: of.facts.job.id,
      why: `added to invoice ${written}`,
    });
  }
}

/** The columns that issuing fills, for an invoice and a credit note alike. */
export function issued(frozen: FrozenInvoice) {
  return {
    state: "issued" as const,
    number: frozen.number,
    written: frozen.written,
    issuedOn: frozen.issuedOn,
    dueOn: frozen.dueOn,
    frozen: frozen as unknown as Prisma.InputJsonObject,
    hash: hashOf(frozen),
  };
}

export function findBy(doc: FrozenInvoice): string {
  return searchKey(
    doc.written,
    doc.buyer.name,
    ...doc.jobs.flatMap((job) => [job.number, job.bike.name, job.bike.plate, job.title]),
    ...(doc.basis === "counter" ? doc.lines.flatMap((line) => [line.key, line.name]).slice(0, 20) : []),
  );
}
