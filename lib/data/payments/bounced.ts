import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { depositLeftOf, settled } from "@/lib/domain/invoices/held";
import { Refusal } from "@/lib/domain/refusal";
import { invoiceIn } from "../invoices/rows";
import { countPaidIn } from "../invoices/settle";
import { dayTexts } from "../shop/dayTexts";
import { addPaid, termsIn, writeMoneyIn } from "./rows";

const MONEY = {
  id: true,
  kind: true,
  jobId: true,
  saleId: true,
  invoiceId: true,
  method: true,
  amountMinor: true,
  roundingMinor: true,
  paidOn: true,
  reference: true,
  at: true,
  job: { select: { customerId: true } },
} as const;

const BANKED: readonly string[] = ["card", "transfer"];

/**
 * Money that was recorded and never came, or was taken back by the bank: a row that takes it back, never a deletion. The invoice that
 * stands for its job is due again. Answers the first row's id.
 */
export async function recordBounced(
  shop: ShopHandle,
  input: {
    readonly paymentId: number;
    readonly paidOn: string;
    readonly reference: string;
    readonly key?: string | undefined;
  },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "recorded a bounced payment", input, () => bouncedIn(tx, shop, input)),
  );
}

/** As recordBounced, in a transaction of the caller's. */
export async function bouncedIn(
  tx: ShopTx,
  shop: ShopHandle,
  input: { readonly paymentId: number; readonly paidOn: string; readonly reference: string },
): Promise<number> {
  await termsIn(tx, shop, input.paidOn);
  const rows = await rowsOfAct(tx, input.paymentId);
  const ids: number[] = [];
  const due = new Map<number, number>();
  for (const row of rows) {
    await demandHeld(tx, row);
    const invoiceId = await standingOf(tx, row.jobId);
    ids.push(
      await writeMoneyIn(tx, shop, {
        kind: "bounced",
        jobId: row.jobId,
        invoiceId,
        method: row.method,
        amountMinor: row.amountMinor,
        roundingMinor: row.roundingMinor,
        paidOn: input.paidOn,
        reference: input.reference,
        reversesId: row.id,
      }),
    );
    if (invoiceId !== null) due.set(invoiceId, (due.get(invoiceId) ?? 0) + settled(row));
  }
  for (const [invoiceId, minor] of due) {
    await addPaid(tx, await invoiceIn(tx, invoiceId), 0 - minor);
    await countPaidIn(tx, shop, invoiceId);
  }
  const [first] = ids;
  if (first === undefined) throw new Error("A payment of no money.");
  return first;
}

type Row = Awaited<ReturnType<typeof rowsOfAct>>[number];

/**
 * The rows of one act: a payment of several jobs or invoices of a customer is one for each. Another customer's may have been recorded
 * in the same millisecond. Refused where it cannot bounce.
 */
async function rowsOfAct(tx: ShopTx, id: number) {
  const row = await tx.payment.findUnique({ where: { id }, select: MONEY });
  if (!row) throw new Refusal("There is no such payment.", "Open the invoice again.", {}, "missing");
  if (
    (row.kind !== "payment" && row.kind !== "deposit" && row.kind !== "overpayment") ||
    !BANKED.includes(row.method) ||
    row.saleId !== null
  )
    throw new Refusal(
      "Only a deposit or a payment by card or bank transfer can bounce.",
      "Give other money back, with why.",
      {},
      "conflict",
    );
  const { kind, method, paidOn, reference, at, job } = row;
  const all =
    kind !== "deposit"
      ? await tx.payment.findMany({
          where: {
            kind: { in: ["payment", "overpayment"] },
            method,
            paidOn,
            reference,
            at,
            job: { customerId: job?.customerId ?? 0 },
          },
          select: MONEY,
          orderBy: { id: "asc" },
        })
      : [row];
  const before = await tx.payment.findFirst({
    where: { reversesId: { in: all.map((one) => one.id) } },
    select: { paidOn: true },
    orderBy: { id: "asc" },
  });
  if (before)
    throw new Refusal(
      `This payment bounced already, on ${(await dayTexts(tx))(before.paidOn)}.`,
      "Nothing more is to be done.",
      {},
      "conflict",
    );
  return all.map((one) => {
    if (one.jobId === null) throw new Error(`Payment ${one.id} is of no job.`);
    return { ...one, jobId: one.jobId };
  });
}

/** Refuses money that the shop has given back since. */
async function demandHeld(tx: ShopTx, row: Row): Promise<void> {
  const { number, payments } = await tx.job.findUniqueOrThrow({
    where: { id: row.jobId },
    select: {
      number: true,
      payments: {
        select: { kind: true, amountMinor: true, roundingMinor: true },
        orderBy: { id: "asc" },
        take: 500,
      },
    },
  });
  if (depositLeftOf(payments) >= settled(row)) return;
  throw new Refusal(
    `The shop no longer holds that much of job ${number}: some of it was given back.`,
    "Ask the customer for it; what went back stays on record.",
    {},
    "conflict",
  );
}

/** The issued invoice that stands for a job; null where none does. */
async function standingOf(tx: ShopTx, jobId: number): Promise<number | null> {
  const found = await tx.invoice.findFirst({
    where: {
      kind: "invoice",
      state: "issued",
      takenBack: false,
      OR: [{ jobId }, { furtherJobs: { some: { jobId } } }],
    },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  return found?.id ?? null;
}
