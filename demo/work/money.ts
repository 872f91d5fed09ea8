import { draftInvoice } from "@/lib/data/invoices/draft";
import { getInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { recordDeposit, recordPayment } from "@/lib/data/payments/record";
import { cashRounding } from "@/lib/domain/money/cash";
import type { Stage } from "../stage";

export type Method = "cash" | "card" | "transfer";

export async function invoice(
  stage: Stage,
  when: Date,
  jobId: number,
  basis: "fixed" | "asWorked" = "fixed",
): Promise<number> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const id = await draftInvoice(shop, { jobId, basis });
  return issueInvoice(shop, { id, version: 1 });
}

/** Pays an invoice: all that is left of it, or a part in minor units. */
export async function pay(
  stage: Stage,
  when: Date,
  invoiceId: number,
  method: Method,
  partMinor?: number,
): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  const found = await getInvoice(shop, invoiceId);
  if (!found) throw new Error(`There is no invoice ${invoiceId}.`);
  const step = method === "cash" ? Math.max(1, found.cashRoundingMinor) : 1;
  const amountMinor = partMinor ?? cashRounding(found.leftMinor, step).payableMinor;
  if (found.leftMinor <= 0) return;
  await recordPayment(shop, { invoiceId, amountMinor, method, paidOn: stage.calendar.dayOf(when) });
}

export async function deposit(
  stage: Stage,
  when: Date,
  jobId: number,
  amountMinor: number,
  method: Method,
): Promise<void> {
  const shop = stage.shop.as(stage.hands.desk, when);
  await recordDeposit(shop, { jobId, amountMinor, method, paidOn: stage.calendar.dayOf(when) });
}
