import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { amountOfJob, amountsOfInvoice, type Column } from "@/lib/domain/chasing/accountLines";
import { daysPast } from "@/lib/domain/chasing/age";
import { MOST_CREDITS } from "../invoices/rows";

/** So many open invoices, and so many jobs with money, are added up: beyond that the answer says so. Judgement. */
export const MOST_OPEN = 900;

const MONEY = {
  payments: {
    select: { kind: true, amountMinor: true, roundingMinor: true, invoiceId: true, paidOn: true },
    orderBy: { id: "asc" },
  },
} satisfies Prisma.JobSelect;

const INVOICE = {
  id: true,
  written: true,
  issuedOn: true,
  dueOn: true,
  grossMinor: true,
  prepaidMinor: true,
  takenBack: true,
  customer: { select: { id: true, name: true } },
  creditedBy: {
    select: { issuedOn: true, grossMinor: true },
    orderBy: { id: "asc" },
    take: MOST_CREDITS,
  },
  job: { select: MONEY },
  furtherJobs: { select: { job: { select: MONEY } }, orderBy: { id: "asc" } },
} satisfies Prisma.InvoiceSelect;

/** One amount of a customer's account on a day, with the document that it comes from. */
export interface AccountLine {
  readonly customer: { readonly id: number; readonly name: string } | null;
  /** An invoice, or a job whose money no invoice has taken. */
  readonly of: { readonly noun: "invoice" | "job"; readonly id: number; readonly number: string };
  readonly issuedOn: string | null;
  readonly dueOn: string | null;
  readonly daysPast: number;
  readonly column: Column;
  /** Below zero in the customer's favour. */
  readonly minor: number;
}

/** Invoices that stood on a day: issued by then, and not taken back by then. */
const stoodBy = (day: string) =>
  ({
    kind: "invoice",
    state: "issued",
    saleId: null,
    issuedOn: { lte: day },
    OR: [{ takenBack: false }, { creditedBy: { some: { issuedOn: { gt: day } } } }],
  }) satisfies Prisma.InvoiceWhereInput;

/** Those of which something may have been open: unpaid now, over-paid, credited in part, or moved since. */
const maybeOpen = (day: string) =>
  ({
    OR: [
      { job: { state: "invoiced" } },
      { payments: { some: { OR: [{ kind: "overpayment" }, { paidOn: { gt: day } }] } } },
      { creditedBy: { some: {} } },
    ],
  }) satisfies Prisma.InvoiceWhereInput;

/** Jobs of which the shop may have held money on a day: nothing of them was invoiced then. */
const maybeHeld = (day: string) => {
  const stood = stoodBy(day);
  const later = { kind: "invoice", issuedOn: { gt: day } } as const;
  return {
    payments: { some: { paidOn: { lte: day } } },
    invoices: { none: stood },
    alsoOn: { none: { invoice: stood } },
    OR: [
      { state: { notIn: ["invoiced", "closed"] } },
      { invoices: { some: { takenBack: true } } },
      { alsoOn: { some: { invoice: { takenBack: true } } } },
      { invoices: { some: later } },
      { alsoOn: { some: { invoice: later } } },
    ],
  } satisfies Prisma.JobWhereInput;
};

/**
 * All that customers owed and had coming at the end of a day, the oldest first: every amount with its document. Counter sales are paid
 * as they are made and are no part of it. `more`: there are more than are added up.
 */
export async function accountLines(
  db: Pick<ShopTx, "invoice" | "job">,
  day: string,
  customerId?: number,
): Promise<{ readonly lines: readonly AccountLine[]; readonly more: boolean }> {
  const whose = customerId === undefined ? {} : { customerId };
  const takenBackBy = { takenBack: true, issuedOn: { lte: day } };
  const invoices = await db.invoice.findMany({
    where: { ...whose, AND: [stoodBy(day), maybeOpen(day)] },
    select: INVOICE,
    orderBy: { id: "asc" },
    take: MOST_OPEN + 1,
  });
  const jobs = await db.job.findMany({
    where: { ...whose, ...maybeHeld(day) },
    select: {
      id: true,
      number: true,
      customer: { select: { id: true, name: true } },
      invoices: {
        where: { kind: "invoice", ...takenBackBy },
        select: { id: true },
        orderBy: { id: "asc" },
      },
      alsoOn: {
        where: { invoice: { kind: "invoice", ...takenBackBy } },
        select: { id: true },
        orderBy: { id: "asc" },
      },
      ...MONEY,
    },
    orderBy: { id: "asc" },
    take: MOST_OPEN + 1,
  });
  return {
    lines: [
      ...invoices.slice(0, MOST_OPEN).flatMap((row) => invoiceLines(row, day)),
      ...jobs.slice(0, MOST_OPEN).flatMap(({ payments, invoices: before, alsoOn, customer, id, number }) =>
        amountOfJob({ money: payments, creditedBefore: before.length + alsoOn.length > 0 }, day).map(
          (amount) => ({
            ...amount,
            customer,
            of: { noun: "job" as const, id, number },
            issuedOn: null,
            dueOn: null,
            daysPast: 0,
          }),
        ),
      ),
    ],
    more: invoices.length > MOST_OPEN || jobs.length > MOST_OPEN,
  };
}

function invoiceLines(row: Prisma.InvoiceGetPayload<{ select: typeof INVOICE }>, day: string): AccountLine[] {
  const { id, written, dueOn, customer } = row;
  const jobs = [...(row.job ? [row.job] : []), ...row.furtherJobs.map((one) => one.job)];
  const dated = {
    ...row,
    issuedOn: row.issuedOn ?? "",
    credits: row.creditedBy.map((credit) => ({ ...credit, issuedOn: credit.issuedOn ?? "" })),
    money: jobs.flatMap((job) => job.payments),
  };
  return amountsOfInvoice(dated, day).map((amount) => ({
    ...amount,
    customer,
    of: { noun: "invoice", id, number: written },
    issuedOn: row.issuedOn,
    dueOn,
    daysPast: Math.max(0, daysPast(dueOn, day)),
  }));
}
