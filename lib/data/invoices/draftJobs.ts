import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Basis } from "@/lib/domain/invoices/printed";
import { jobOfKey } from "@/lib/domain/invoices/severalJobs";
import { Refusal } from "@/lib/domain/refusal";
import { type KeptLines, storedKept } from "../documents/kept";
import { composeInvoice } from "./compose";
import { figuresOf, foundAs, guarded, joinableIn, keptJson } from "./draft";
import { editsOf } from "./edits";
import { type ChargedJob, type ChargedJobs, jobsOn } from "./jobsOn";
import { demandInvoiceDraft, type InvoiceRow, invoiceIn } from "./rows";

interface OnDraft {
  readonly id: number;
  readonly version: number;
  readonly key?: string | undefined;
}

/** Adds a finished job of the same customer to a draft, as quoted or as worked. Answers the draft's id. */
export async function addJob(
  shop: ShopHandle,
  input: OnDraft & { jobId: number; basis: Basis },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "added a job to an invoice", input, async () => {
      const { row, jobs } = await draftIn(tx, input);
      const facts = await joinableIn(tx, jobs[0].facts, input.jobId, jobs.length - 1);
      const charged: ChargedJobs = [...jobs, { facts, basis: input.basis }];
      const printed = await composedIn(tx, shop, row, charged);
      await tx.invoiceJob.create({
        data: { invoiceId: row.id, jobId: input.jobId, basis: input.basis },
        select: { id: true },
      });
      await guarded(tx, row, { ...figuresOf(printed), searchKey: foundAs(printed) });
      await audit(tx, shop, "added job", "invoice", row.id, {
        job: facts.job.number,
        basis: input.basis,
        grossMinor: printed.grossMinor,
      });
      return row.id;
    }),
  );
}

/** Takes a job off a draft again, with what was changed by hand on its lines. Answers the draft's id. */
export async function takeJobOff(shop: ShopHandle, input: OnDraft & { jobId: number }): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "took a job off an invoice", input, async () => {
      const { row, jobs } = await draftIn(tx, input);
      const { facts } = chargedIn(jobs, input.jobId);
      const { number } = facts.job;
      if (facts === jobs[0].facts)
        throw new Refusal(
          `The draft began with job ${number}.`,
          "Discard the draft, and draft an invoice of the other jobs.",
          {},
          "conflict",
        );
      const own = (await editsOf(tx, row.id)).filter((edit) => jobOfKey(edit.key).job === number);
      await tx.invoiceEdit.deleteMany({
        where: { invoiceId: row.id, key: { in: own.map((edit) => edit.key) } },
      });
      await tx.invoiceJob.deleteMany({ where: { invoiceId: row.id, jobId: input.jobId } });
      const [first, ...rest] = jobs;
      const left: ChargedJobs = [first, ...rest.filter((one) => one.facts !== facts)];
      const printed = await composedIn(tx, shop, row, left);
      await guarded(tx, row, { ...figuresOf(printed), searchKey: foundAs(printed) });
      await audit(tx, shop, "took job off", "invoice", row.id, {
        job: number,
        ...(own.length > 0 ? { changedLines: own.length } : {}),
        grossMinor: printed.grossMinor,
      });
      return row.id;
    }),
  );
}

/** Turns a job of a draft (its first, where none is named) from as quoted to as worked, or back. Answers the draft's id. */
export async function changeBasis(
  shop: ShopHandle,
  input: OnDraft & { basis: Basis; jobId?: number | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "changed an invoice's basis", input, async () => {
      const { row, jobs } = await draftIn(tx, input);
      const turned = input.jobId === undefined ? jobs[0] : chargedIn(jobs, input.jobId);
      const { id: jobId, number } = turned.facts.job;
      const first = turned === jobs[0];
      const edits = await editsOf(tx, row.id);
      if (edits.some((edit) => jobOfKey(edit.key).job === (first ? null : number)))
        throw new Refusal(
          jobs.length === 1
            ? "Lines of this draft were changed by hand, and the other basis has other lines."
            : `Lines of job ${number} were changed by hand, and the other basis has other lines.`,
          "Put the changed lines back as they were first, or take single lines from the other basis.",
          {},
          "conflict",
        );
      const turn = (one: ChargedJob): ChargedJob =>
        one === turned ? { facts: one.facts, basis: input.basis } : one;
      const [lead, ...rest] = jobs;
      const printed = await composedIn(tx, shop, row, [turn(lead), ...rest.map(turn)]);
      if (!first)
        await tx.invoiceJob.updateMany({
          where: { invoiceId: row.id, jobId },
          data: { basis: input.basis },
        });
      await guarded(tx, row, {
        ...(first ? { basis: input.basis } : {}),
        ...(turned.kept ? { kept: keptJson(await withoutKept(tx, row.id, number)) } : {}),
        ...figuresOf(printed),
      });
      await audit(tx, shop, "changed basis", "invoice", row.id, {
        ...(jobs.length > 1 ? { job: number } : {}),
        basis: input.basis,
        grossMinor: printed.grossMinor,
      });
      return row.id;
    }),
  );
}

/** What a draft keeps of the invoice that it corrects, without one of its jobs, which is charged by its basis again. */
async function withoutKept(tx: ShopTx, id: number, job: string): Promise<KeptLines> {
  const kept = storedKept(
    (await tx.invoice.findUniqueOrThrow({ where: { id }, select: { kept: true } })).kept,
  );
  if (!kept) throw new Error(`Draft ${id} keeps nothing.`);
  return { ...kept, jobs: kept.jobs.filter((one) => one.number !== job) };
}

async function draftIn(tx: ShopTx, input: OnDraft) {
  const row = await invoiceIn(tx, input.id);
  demandInvoiceDraft(row, input.version);
  return { row, jobs: await jobsOn(tx, row) };
}

const composedIn = async (tx: ShopTx, shop: ShopHandle, row: InvoiceRow, jobs: ChargedJobs) =>
  composeInvoice(jobs, shop.now, await editsOf(tx, row.id));

function chargedIn(jobs: ChargedJobs, jobId: number): ChargedJob {
  const found = jobs.find((one) => one.facts.job.id === jobId);
  if (found) return found;
  throw new Refusal(
    "This job is not on the draft.",
    "Look at the draft as it stands now, then do it again.",
    {},
    "conflict",
  );
}
