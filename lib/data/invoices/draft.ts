import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Basis, PrintedInvoice } from "@/lib/domain/invoices/printed";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { DraftInvoice } from "@/lib/schemas/invoices";
import { JOB_WORDS } from "@/lib/schemas/jobWords";
import { demandPaidFor } from "./byWord";
import { composeInvoice } from "./compose";
import { type InvoiceFacts, invoiceFacts, liveInvoice } from "./facts";
import { demandInvoiceDraft, invoiceIn, jobIdOf } from "./rows";

/** States of a job in which it can be invoiced: the work is done. */
const DONE: readonly InvoiceFacts["job"]["state"][] = ["ready", "invoiced", "closed"];

/** A draft invoice of a finished job, as quoted or as worked; answers its id. */
export async function draftInvoice(
  shop: ShopHandle,
  input: DraftInvoice & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "drafted an invoice", input, async () => {
      const facts = await invoiceFacts(tx, input.jobId);
      demandInvoiceable(facts);
      const { job } = facts;
      const printed = composeInvoice(facts, input.basis, shop.now);
      const { id } = await tx.invoice.create({
        data: {
          jobId: job.id,
          customerId: job.customerId,
          basis: input.basis,
          searchKey: searchKey(
            job.customer.name,
            ...printed.jobs.flatMap((one) => [one.number, one.bike.name, one.bike.plate, one.title]),
          ),
          createdAt: shop.now,
          ...figuresOf(printed),
        },
        select: { id: true },
      });
      await audit(tx, shop, "drafted", "invoice", id, {
        job: job.number,
        basis: input.basis,
        grossMinor: printed.grossMinor,
      });
      return id;
    }),
  );
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
        : `Job ${job.number} is already invoiced with ${live.number}.`,
      live.state === "draft" ? "Open the draft." : "Credit that one first.",
      {},
      "conflict",
    );
}

export function figuresOf(printed: PrintedInvoice) {
  const { netMinor, taxMinor, grossMinor, prepaidMinor } = printed;
  return { netMinor, taxMinor, grossMinor, prepaidMinor };
}

/** Turns a draft from as quoted to as worked, or back. */
export async function changeBasis(
  shop: ShopHandle,
  input: { id: number; version: number; basis: Basis; key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "changed an invoice's basis", input, async () => {
      const row = await invoiceIn(tx, input.id);
      demandInvoiceDraft(row, input.version);
      if (await tx.invoiceEdit.findFirst({ where: { invoiceId: row.id }, select: { id: true } }))
        throw new Refusal(
          "Lines of this draft were changed by hand, and the other basis has other lines.",
          "Put the changed lines back as they were first, or take single lines from the other basis.",
          {},
          "conflict",
        );
      const printed = composeInvoice(await invoiceFacts(tx, jobIdOf(row)), input.basis, shop.now);
      await guarded(tx, row, { basis: input.basis, ...figuresOf(printed) });
      await audit(tx, shop, "changed basis", "invoice", row.id, {
        basis: input.basis,
        grossMinor: printed.grossMinor,
      });
      return row.id;
    }),
  );
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
