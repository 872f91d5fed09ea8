import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";
import { INVOICE_ROW } from "../invoices/rows";
import { depositIn, payInvoiceIn } from "./record";

export interface SeveralPaid {
  readonly customerId: number;
  readonly invoices: readonly number[];
  /** Jobs whose deposits it pays, after the invoices. */
  readonly deposits?: readonly number[];
  readonly amountMinor: number;
  readonly method: "card" | "transfer";
  readonly paidOn: string;
  readonly reference?: string;
  /** What is more than is due on all of them stays the customer's balance, with the last one. */
  readonly keepRest?: boolean | undefined;
  readonly key?: string | undefined;
}

/** What a customer has to pay, the oldest first. */
export async function openInvoices(shop: ShopHandle, customerId: number) {
  const rows = await shop.read.invoice.findMany({
    where: { customerId, kind: "invoice", state: "issued", takenBack: false, job: { state: "invoiced" } },
    select: INVOICE_ROW,
    orderBy: { id: "asc" },
    take: 50,
  });
  return rows
    .map(({ id, written, issuedOn, dueOn, ...row }) => ({
      id,
      written,
      issuedOn,
      dueOn,
      leftMinor: outstanding({ ...row, dueOn, credited: false }),
    }))
    .filter((one) => one.leftMinor > 0);
}

/** Jobs of a customer whose deposit was asked for and is not paid, the oldest first. */
export const openDeposits = (db: Pick<ShopTx, "job">, customerId: number) =>
  depositsAsked(db, { customerId }, 50);

/** The same of any jobs. */
export async function depositsAsked(db: Pick<ShopTx, "job">, of: Prisma.JobWhereInput, most: number) {
  const jobs = await db.job.findMany({
    where: {
      ...of,
      state: { in: ["waiting", "booked", "inWork", "ride", "ready"] },
      revision: { depositMinor: { gt: 0 } },
      invoices: { none: { state: "issued", kind: "invoice", takenBack: false } },
      alsoOn: { none: { invoice: { state: "issued", kind: "invoice", takenBack: false } } },
    },
    select: {
      id: true,
      number: true,
      title: true,
      createdAt: true,
      customer: { select: { id: true, name: true } },
      revision: { select: { depositMinor: true, quote: { select: { number: true, sequence: true } } } },
      payments: {
        select: { kind: true, amountMinor: true, roundingMinor: true },
        orderBy: { id: "asc" },
        take: 500,
      },
    },
    orderBy: { id: "asc" },
    take: most,
  });
  return jobs
    .map(({ revision, payments, ...job }) => ({
      ...job,
      quote: revision.quote,
      leftMinor: revision.depositMinor - depositLeftOf(payments),
    }))
    .filter((one) => one.leftMinor > 0);
}

/** What some money pays: an invoice, or a job's deposit. */
interface Owed {
  readonly name: string;
  readonly minor: number;
  readonly of: { readonly invoiceId: number } | { readonly jobId: number };
}

async function owedIn(tx: ShopTx, { customerId, invoices, deposits = [] }: SeveralPaid): Promise<Owed[]> {
  const rows = await tx.invoice.findMany({
    where: { id: { in: [...invoices] }, customerId, kind: "invoice", state: "issued" },
    select: INVOICE_ROW,
    orderBy: { id: "asc" },
  });
  const jobs = (await openDeposits(tx, customerId)).filter((job) => deposits.includes(job.id));
  if (rows.length !== new Set(invoices).size || jobs.length !== new Set(deposits).size)
    throw new Refusal(
      "Something of this is no open invoice or deposit of this customer.",
      "Open the page again.",
      {},
      "conflict",
    );
  return [
    ...rows.map((row) => ({
      name: `invoice ${row.written}`,
      minor: outstanding({ ...row, credited: row.takenBack }),
      of: { invoiceId: row.id },
    })),
    ...jobs.map((job) => ({
      name: `the deposit of job ${job.number}`,
      minor: job.leftMinor,
      of: { jobId: job.id },
    })),
  ];
}

/**
 * One payment over several invoices and deposits of a customer: the oldest invoice is paid in full first, the last gets what is left.
 * Answers the first row's id. Refused where one would get none of it, or more than is due on all is given and not to be kept.
 */
export async function recordForSeveral(shop: ShopHandle, input: SeveralPaid): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "recorded a payment of several invoices", input, async () => {
      const owed = await owedIn(tx, input);
      const due = owed.reduce((sum, one) => sum + one.minor, 0);
      const last = owed.at(-1);
      const mayKeep = input.keepRest === true && last !== undefined && "invoiceId" in last.of;
      if (input.amountMinor > due && !mayKeep) throw await tooMuch(tx, due);
      const { paidOn, method, reference = "" } = input;
      let left = input.amountMinor;
      const ids: number[] = [];
      for (const one of owed) {
        if (left <= 0)
          throw new Refusal(
            `Nothing of it is left for ${one.name}.`,
            "Take the tick off that one, or enter more.",
            { amount: "Too little for all that is ticked." },
          );
        const amountMinor = one === last ? left : Math.min(left, one.minor);
        const money = { amountMinor, method, paidOn, reference };
        ids.push(
          "invoiceId" in one.of
            ? await payInvoiceIn(tx, shop, { ...money, ...one.of, keepRest: mayKeep })
            : await depositIn(tx, shop, { ...money, ...one.of }),
        );
        left -= amountMinor;
      }
      const [first] = ids;
      if (first === undefined) throw new Refusal("Nothing is ticked.", "Tick what it pays.");
      return first;
    }),
  );
}

async function tooMuch(tx: ShopTx, dueMinor: number): Promise<Refusal> {
  const { currency, locale } = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true, locale: true },
  });
  const remedy = `${moneyText(dueMinor, currency, locale)} ${currency} is due on what is ticked. Tick more; without a deposit, the rest can be kept as the customer's balance.`;
  return new Refusal("That is more than is due.", remedy, { amount: remedy });
}
