import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { type MoneyPart, type MoneyTaken, takeMoney, takeParts } from "@/lib/domain/invoices/settle";
import { grossOfJob } from "@/lib/domain/invoices/severalJobs";
import { sharedParts } from "@/lib/domain/invoices/sharing";
import { outstanding } from "@/lib/domain/invoices/state";
import { Refusal } from "@/lib/domain/refusal";
import { storedInvoice } from "../documents/invoice";
import { creditsOf } from "../invoices/credit";
import { invoiceFacts, liveInvoice } from "../invoices/facts";
import { jobIdsOn } from "../invoices/jobsOn";
import { invoiceIn, jobIdOf } from "../invoices/rows";
import { countPaidIn } from "../invoices/settle";
import { addPaid, type MoneyInput, termsIn, type Written, writeMoneyIn } from "./rows";

/** Money in: also by a second method in the same act. */
export interface MoneyIn extends MoneyInput {
  readonly also?: MoneyPart | undefined;
  /** What is more than is due, and no cash, stays the customer's balance. */
  readonly keepRest?: boolean | undefined;
}

/** Money for a job before its invoice, at most the agreed price; taken off when the invoice is issued. Answers the first payment's id. */
export async function recordDeposit(shop: ShopHandle, input: MoneyIn & { jobId: number }): Promise<number> {
  return shop.write((tx) => once(tx, shop, "recorded a deposit", input, () => depositIn(tx, shop, input)));
}

/** As recordDeposit, in a transaction of the caller's. */
export async function depositIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: MoneyIn & { jobId: number },
): Promise<number> {
  const terms = await termsIn(tx, shop, input.paidOn);
  const facts = await invoiceFacts(tx, input.jobId);
  const { job } = facts;
  if (job.state === "cancelled")
    throw new Refusal(`Job ${job.number} is cancelled.`, "Nothing more is paid for it.", {}, "conflict");
  const live = liveInvoice(facts);
  if (live?.state === "issued")
    throw new Refusal(
      `Job ${job.number} is invoiced with ${live.written}.`,
      "Record the money as a payment of that invoice.",
      {},
      "conflict",
    );
  const due = (await agreedMinor(tx, job.id)) - depositLeftOf(job.payments);
  const taken = takeParts(due, partsOf(input), terms.cashRoundingMinor, terms);
  const { paidOn, reference = "" } = input;
  return writePartsIn(tx, shop, taken, {
    paidOn,
    reference,
    kind: "deposit",
    jobId: job.id,
    invoiceId: null,
  });
}

/** What was agreed for a job: its quote and its accepted variations, with tax. */
async function agreedMinor(tx: ShopTx, jobId: number): Promise<number> {
  const job = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      revision: { select: { grossMinor: true } },
      variations: {
        where: { state: "accepted" },
        select: { grossMinor: true },
        orderBy: { id: "asc" },
        take: 50,
      },
    },
  });
  return job.variations.reduce((sum, variation) => sum + variation.grossMinor, job.revision.grossMinor);
}

/** Money for an issued invoice, at most what is due unless the rest is kept. Paid in full closes its jobs. Answers the first row's id. */
export async function recordPayment(
  shop: ShopHandle,
  input: MoneyIn & { invoiceId: number },
): Promise<number> {
  return shop.write((tx) => once(tx, shop, "recorded a payment", input, () => payInvoiceIn(tx, shop, input)));
}

/** As recordPayment, in a transaction of the caller's. */
export async function payInvoiceIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: MoneyIn & { invoiceId: number },
): Promise<number> {
  const terms = await termsIn(tx, shop, input.paidOn);
  const row = await payableIn(tx, input.invoiceId);
  const due = outstanding({ ...row, credited: false });
  const restMinor = restOf(input, due);
  const parts = partsOf(restMinor > 0 ? { ...input, amountMinor: due } : input);
  const taken = takeParts(due, parts, terms.cashRoundingMinor, terms);
  const { paidOn, reference = "" } = input;
  const of = { paidOn, reference };
  const id = await writePaidIn(tx, shop, row, taken, of);
  if (restMinor > 0)
    await writeMoneyIn(tx, shop, {
      ...of,
      kind: "overpayment",
      jobId: row.jobId,
      invoiceId: row.id,
      method: input.method,
      amountMinor: restMinor,
      roundingMinor: 0,
    });
  await addPaid(
    tx,
    row,
    taken.reduce((sum, part) => sum + part.settlesMinor, restMinor),
  );
  await countPaidIn(tx, shop, row.id);
  return id;
}

/** What of some money is more than is due and stays the customer's balance. */
const restOf = ({ keepRest, method, amountMinor, also }: MoneyIn, dueMinor: number): number =>
  keepRest && method !== "cash" && !also && dueMinor > 0 ? Math.max(0, amountMinor - dueMinor) : 0;

/** An issued invoice that stands and can be paid, and the job it began with; refused where it is none. */
export async function payableIn(tx: ShopTx, id: number) {
  const row = await invoiceIn(tx, id);
  if (row.saleId !== null)
    throw new Refusal(
      "Parts over the counter are paid as they are sold.",
      "Nothing more is due for them.",
      {},
      "conflict",
    );
  const jobId = jobIdOf(row);
  if (row.kind !== "invoice" || row.state !== "issued")
    throw new Refusal(
      "Only an issued invoice is paid.",
      "Issue the draft first; before that, money is a deposit.",
      {},
      "conflict",
    );
  if (row.takenBack)
    throw new Refusal(
      `Invoice ${row.written} is credited with ${row.creditedBy.map((credit) => credit.written).join(", ")}: nothing is due.`,
      "Pay the job's new invoice.",
      {},
      "conflict",
    );
  return { ...row, jobId };
}

/** Money given back, at most what the shop holds of the job; against a standing invoice it is due again. Answers the payment's id. */
export async function recordRefund(
  shop: ShopHandle,
  input: MoneyInput & { jobId: number; reference: string },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "recorded a refund", input, async () => {
      const terms = await termsIn(tx, shop, input.paidOn);
      const facts = await invoiceFacts(tx, input.jobId);
      const held = depositLeftOf(facts.job.payments);
      if (held <= 0)
        throw new Refusal(
          "The shop holds no money of this job.",
          "There is nothing to give back.",
          {},
          "conflict",
        );
      const given = takeMoney(held, input.amountMinor, input.method, terms.cashRoundingMinor, terms, "held");
      const live = liveInvoice(facts);
      const invoiceId = live?.state === "issued" ? live.id : null;
      const id = await writeMoneyIn(tx, shop, {
        ...input,
        ...given,
        kind: "refund",
        jobId: input.jobId,
        invoiceId,
      });
      if (invoiceId !== null) {
        await addPaid(tx, await invoiceIn(tx, invoiceId), 0 - given.settlesMinor);
        await countPaidIn(tx, shop, invoiceId);
      }
      return id;
    }),
  );
}

const partsOf = ({ method, amountMinor, also }: MoneyIn): MoneyPart[] => [
  { method, amountMinor },
  ...(also ? [also] : []),
];

/** Some of the money, by whatever means. */
type PaidPart = MoneyTaken & { readonly method: string };

/** A row for each part. Answers the first one's id. */
async function writePartsIn(
  tx: ShopTx,
  shop: ShopHandle,
  parts: readonly (PaidPart & { readonly jobId?: number })[],
  of: Pick<Written, "kind" | "jobId" | "invoiceId" | "paidOn" | "reference">,
): Promise<number> {
  const ids: number[] = [];
  for (const part of parts) ids.push(await writeMoneyIn(tx, shop, { ...of, ...part }));
  const [first] = ids;
  if (first === undefined) throw new Error("A payment of no money.");
  return first;
}

/**
 * Money for an invoice, each job's share on that job: should the invoice be credited, the money comes off the next one of the job that
 * it was paid for, whichever jobs that charges. Answers the first row's id.
 */
export async function writePaidIn(
  tx: ShopTx,
  shop: ShopHandle,
  row: { id: number; jobId: number },
  taken: readonly PaidPart[],
  given: Pick<Written, "paidOn" | "reference">,
): Promise<number> {
  const of = { ...given, kind: "payment", invoiceId: row.id } as const;
  const jobIds = await jobIdsOn(tx, row);
  if (jobIds.length === 1) return writePartsIn(tx, shop, taken, { ...of, jobId: row.jobId });
  const { frozen } = await tx.invoice.findUniqueOrThrow({ where: { id: row.id }, select: { frozen: true } });
  const doc = storedInvoice(frozen);
  const credits = await creditsOf(tx, row.id);
  const owed: number[] = [];
  for (const id of jobIds) {
    const job = await tx.job.findUniqueOrThrow({
      where: { id },
      select: {
        number: true,
        payments: {
          select: { kind: true, amountMinor: true, roundingMinor: true },
          orderBy: { id: "asc" },
          take: 500,
        },
      },
    });
    const charged = [doc, ...credits].reduce((sum, one) => sum + grossOfJob(one, job.number), 0);
    owed.push(charged - depositLeftOf(job.payments));
  }
  const shared = sharedParts(taken, owed).map(({ job, ...part }) => ({
    ...part,
    jobId: jobIds[job] ?? row.jobId,
  }));
  return writePartsIn(tx, shop, shared, of);
}
