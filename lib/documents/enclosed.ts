import { Buffer } from "node:buffer";
import type { ReminderPaper } from "@/lib/domain/chasing/reminderPaper";
import type { StatementPaper } from "@/lib/domain/chasing/statement";
import type { PrintedMoney } from "@/lib/domain/invoices/moneyPaper";
import type { PrintedInvoice } from "@/lib/domain/invoices/printed";
import type { PrintedVisit } from "@/lib/domain/schedule/visit";
import type { OrderOnPaper } from "@/lib/domain/stock/orderOnPaper";
import { calendarText } from "./calendar";
import { einvoiceXml } from "./einvoice";
import { invoicePdf } from "./invoice";
import { moneyPdf } from "./moneyPaper";
import { orderCsv, orderPdf } from "./order";
import { type QuotePaper, quotePdf } from "./quote";
import { reminderPdf } from "./reminder";
import { statementPdf } from "./statement";

/** A document that goes with a letter, as values. */
export type EnclosedPaper = { readonly name: string } & (
  | { readonly document: "quote"; readonly printed: QuotePaper; readonly country: string }
  | { readonly document: "invoice"; readonly form: "pdf" | "xml"; readonly printed: PrintedInvoice }
  | { readonly document: "order"; readonly form: "pdf" | "csv"; readonly printed: OrderOnPaper }
  | { readonly document: "visit"; readonly printed: PrintedVisit }
  | { readonly document: "money"; readonly printed: PrintedMoney }
  | { readonly document: "statement"; readonly printed: StatementPaper }
  | { readonly document: "reminder"; readonly printed: ReminderPaper }
);

export interface PrintedFile {
  readonly name: string;
  readonly type: string;
  readonly content: Uint8Array;
}

/** The file that leaves with a mail: the same values give the same bytes. */
export async function printEnclosed(paper: EnclosedPaper): Promise<PrintedFile> {
  const { name } = paper;
  if (paper.document === "order" && paper.form === "csv")
    return { name, type: "text/csv", content: Buffer.from(orderCsv(paper.printed), "utf8") };
  if (paper.document === "visit")
    return { name, type: "text/calendar", content: Buffer.from(visitText(paper.printed), "utf8") };
  if (paper.document === "invoice" && paper.form === "xml")
    return { name, type: "application/xml", content: Buffer.from(einvoiceXml(paper.printed), "utf8") };
  const pdf = (content: Uint8Array) => ({ name, type: "application/pdf", content });
  if (paper.document === "quote") return pdf(await quotePdf(paper.printed, paper.country));
  if (paper.document === "statement") return pdf(await statementPdf(paper.printed));
  if (paper.document === "reminder") return pdf(await reminderPdf(paper.printed));
  if (paper.document === "invoice") return pdf(await invoicePdf(paper.printed));
  if (paper.document === "money") return pdf(await moneyPdf(paper.printed));
  return pdf(await orderPdf(paper.printed));
}

function visitText({ startsAt, endsAt, saidAt, ...visit }: PrintedVisit): string {
  const entry = { ...visit, startsAt: new Date(startsAt), endsAt: new Date(endsAt) };
  return calendarText({ name: visit.summary, entries: [entry], now: new Date(saidAt) });
}
