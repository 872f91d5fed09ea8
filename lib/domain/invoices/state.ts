import { Temporal } from "temporal-polyfill";
import type { DocumentKind } from "./printed";

/** What an invoice's state is decided from. */
export interface InvoiceMoney {
  readonly kind: DocumentKind;
  readonly state: "draft" | "issued";
  readonly dueOn: string | null;
  readonly grossMinor: number;
  readonly prepaidMinor: number;
  readonly paidMinor: number;
  /** True once a credit note takes it back. */
  readonly credited: boolean;
  /** Some of it was written off: settled without all of it being paid. */
  readonly writtenOff?: boolean;
}

export type InvoiceStanding =
  | "draft"
  | "open"
  | "partPaid"
  | "paid"
  | "writtenOff"
  | "late"
  | "credited"
  | "credit"
  | "toPayBack";

/** What is still to be paid, in minor units; below zero is owed to the customer. A credit note asks for nothing. */
export function outstanding(invoice: InvoiceMoney): number {
  if (invoice.kind === "creditNote" || invoice.credited) return 0;
  return invoice.grossMinor - invoice.prepaidMinor - invoice.paidMinor;
}

/** Where an invoice stands on a day ("YYYY-MM-DD"). Late from the day after it was due. */
export function standing(invoice: InvoiceMoney, today: string): InvoiceStanding {
  if (invoice.state === "draft") return "draft";
  if (invoice.kind === "creditNote") return "credit";
  if (invoice.credited) return "credited";
  const left = outstanding(invoice);
  if (left < 0) return "toPayBack";
  if (left === 0) return invoice.writtenOff ? "writtenOff" : "paid";
  if (invoice.dueOn !== null && invoice.dueOn < today) return "late";
  return invoice.prepaidMinor + invoice.paidMinor > 0 ? "partPaid" : "open";
}

/** Whole days past the day it was due; 0 where it is not late. */
export function daysLate(invoice: InvoiceMoney, today: string): number {
  if (invoice.dueOn === null || standing(invoice, today) !== "late") return 0;
  return Temporal.PlainDate.from(invoice.dueOn).until(Temporal.PlainDate.from(today)).days;
}
