import type { ShopTx } from "@/lib/db/shop";
import { moneyText } from "@/lib/domain/money/format";
import { Refusal } from "@/lib/domain/refusal";

/** So many credit notes of one invoice: each is read to know what is left of it. Judgement. */
export const MOST_CREDITS = 50;

export const INVOICE_ROW = {
  id: true,
  kind: true,
  number: true,
  written: true,
  state: true,
  jobId: true,
  saleId: true,
  customerId: true,
  basis: true,
  issuedOn: true,
  dueOn: true,
  grossMinor: true,
  prepaidMinor: true,
  paidMinor: true,
  version: true,
  takenBack: true,
  creditedBy: {
    select: { id: true, written: true, grossMinor: true },
    orderBy: { id: "asc" },
    take: MOST_CREDITS,
  },
} as const;

/** One invoice as a write decides about it. */
export async function invoiceIn(tx: ShopTx, id: number) {
  const row = await tx.invoice.findUnique({ where: { id }, select: INVOICE_ROW });
  if (!row) throw new Refusal("There is no such invoice.", "Choose one from the list.", {}, "missing");
  return row;
}

export type InvoiceRow = Awaited<ReturnType<typeof invoiceIn>>;

/** The job of a draft: a sale's documents are issued as they are made. */
export function jobIdOf(row: { readonly id: number; readonly jobId: number | null }): number {
  if (row.jobId === null) throw new Error(`Document ${row.id} is of no job.`);
  return row.jobId;
}

/** Refuses anything but a draft seen as it stands. */
export function demandInvoiceDraft(row: InvoiceRow, version: number): void {
  if (row.state === "issued")
    throw new Refusal(
      `This is issued as number ${row.written} and cannot change any more.`,
      "Write a credit note to take it back.",
      {},
      "conflict",
    );
  if (row.version !== version)
    throw new Refusal(
      "This draft was changed by someone else since you opened it.",
      "Look at it as it stands now, then do it again.",
      {},
      "conflict",
    );
}

/** What a total was when someone saw it, and is now, as screens write amounts. */
export function changedTotal(
  shown: number,
  now: number,
  { currency, locale }: { readonly currency: string; readonly locale: string },
): Refusal {
  const text = (minor: number) => moneyText(minor, currency, locale);
  return new Refusal(
    `The total has changed from ${text(shown)} to ${text(now)} ${currency} since you opened this.`,
    "Time, parts or prices were changed. Look at the lines again, then issue it.",
    {},
    "conflict",
  );
}
