import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import { MOST_JOBS } from "@/lib/domain/invoices/severalJobs";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { DraftInvoice } from "@/lib/schemas/invoices";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import type { KeptLines } from "../documents/kept";
import { demandPaidFor } from "./byWord";
import { composeInvoice } from "./compose";
import { type InvoiceFacts, invoiceFacts, liveInvoice } from "./facts";
import { type ChargedJob, type ChargedJobs, withKept } from "./jobsOn";
import { demandInvoiceDraft, invoiceIn, jobIdOf } from "./rows";

/** States of a job in which it can be invoiced: the work is done. */
const DONE: readonly InvoiceFacts["job"]["state"][] = ["ready", "invoiced", "closed"];

/** A draft invoice of a finished job, as quoted or as worked, and of others of the same customer on the same basis; answers its id. */
export async function draftInvoice(
  shop: ShopHandle,
  input: DraftInvoice & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "drafted an invoice", input, async () => {
      const { jobId, basis, also = [] } = input;
      const facts = await invoiceFacts(tx, jobId);
      const further: ChargedJob[] = [];
      for (const id of new Set(also)) {
        if (id !== jobId) further.push({ facts: await joinableIn(tx, facts, id, further.length), basis });
      }
      return createDraftIn(tx, shop, [{ facts, basis }, ...further], null);
    }),
  );
}

/** Writes a draft for jobs, with what it keeps of an invoice that it corrects. Answers its id. */
export async function createDraftIn(
  tx: ShopTx,
  shop: ShopHandle,
  jobs: ChargedJobs,
  kept: KeptLines | null,
): Promise<number> {
  const [{ facts, basis }, ...further] = jobs;
  const { job } = facts;
  demandInvoiceable(facts);
  const [first, ...others] = jobs.map((one) => withKept(one, kept));
  if (!first) throw new Error("A draft of no job.");
  const printed = composeInvoice([first, ...others], shop.now);
  const { id } = await tx.invoice.create({
    data: {
      jobId: job.id,
      customerId: job.customerId,
      basis,
      searchKey: foundAs(printed),
      createdAt: shop.now,
      ...(kept ? { kept: keptJson(kept) } : {}),
      ...figuresOf(printed),
      furtherJobs: { create: further.map((one) => ({ jobId: one.facts.job.id, basis: one.basis })) },
    },
    select: { id: true },
  });
  await audit(tx, shop, "drafted", "invoice", id, {
    job: job.number,
    ...(further.length > 0 ? { with: further.map((one) => one.facts.job.number) } : {}),
    ...(kept ? { corrects: kept.corrects } : {}),
    basis,
    grossMinor: printed.grossMinor,
  });
  return id;
}

/** Kept lines as the database takes them. */
export const keptJson = (kept: KeptLines) => kept as unknown as Prisma.InputJsonObject;

/** What a draft is found by. */
export const foundAs = ({ buyer, jobs }: PrintedInvoice): string =>
  searchKey(buyer.name, ...jobs.flatMap((one) => [one.number, one.bike.name, one.bike.plate, one.title]));

/** A further job for an invoice that begins with `first`, beside so many others; refused where it may not stand there. */
export async function joinableIn(
  tx: ShopTx,
  first: InvoiceFacts,
  jobId: number,
  others: number,
): Promise<InvoiceFacts> {
  const facts = await invoiceFacts(tx, jobId);
  if (facts.job.customerId !== first.job.customerId)
    throw new Refusal(
      `Job ${facts.job.number} is ${facts.job.customer.name}'s, job ${first.job.number} is ${first.job.customer.name}'s.`,
      "One invoice is for one customer: invoice them apart.",
      {},
      "conflict",
    );
  if (others + 2 > MOST_JOBS)
    throw new Refusal(`An invoice holds at most ${MOST_JOBS} jobs.`, "Make another invoice for the rest.");
  demandInvoiceable(facts);
  return facts;
}

function demandInvoiceable(facts: InvoiceFacts): void {
  const { job } = facts;
  if (!DONE.includes(job.state))
    throw new Refusal(
      `Job ${job.number} is ${JOB_WORDS[job.state].word}.`,
      job.state === "cancelled"
        ? "A cancelled job is not invoiced."
        : "Finish it on its card first: then what was done is known.",
      {},
      "conflict",
    );
  demandPaidFor(facts);
  const live = liveInvoice(facts);
  if (live)
    throw new Refusal(
      live.state === "draft"
        ? `Job ${job.number} already has a draft invoice.`
        : `Job ${job.number} is already invoiced with ${live.written}.`,
      live.state === "draft" ? "Open the draft." : "Credit that one first.",
      {},
      "conflict",
    );
}

export function figuresOf(printed: PrintedInvoice) {
  const { netMinor, taxMinor, grossMinor, prepaidMinor } = printed;
  return { netMinor, taxMinor, grossMinor, prepaidMinor };
}

/** Changes a draft as it was seen. */
export async function guarded(
  tx: ShopTx,
  row: { id: number; version: number },
  data: Parameters<ShopTx["invoice"]["updateMany"]>[0]["data"],
): Promise<void> {
  await demandOne(
    tx.invoice.updateMany({
      where: { id: row.id, state: "draft", version: row.version },
      data: { ...data, version: { increment: 1 } },
    }),
    () =>
      new Refusal("This draft has just been changed by someone else.", "Look at it again.", {}, "conflict"),
  );
}

/** Throws a draft away; nothing was numbered, so nothing is missing. Answers the job's id. */
export async function discardDraft(
  shop: ShopHandle,
  input: { id: number; version: number; key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "discarded a draft", input, async () => {
      const row = await invoiceIn(tx, input.id);
      demandInvoiceDraft(row, input.version);
      await tx.invoice.deleteMany({ where: { id: row.id, state: "draft", version: row.version } });
      await audit(tx, shop, "discarded", "invoice", row.id, { basis: row.basis, grossMinor: row.grossMinor });
      return jobIdOf(row);
    }),
  );
}
