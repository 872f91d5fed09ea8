"use server";
import { after } from "next/server";
import { noteOrderNumber } from "@/lib/data/einvoice/order";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { getCreditable } from "@/lib/data/invoices/creditable";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { discardDraft, draftInvoice } from "@/lib/data/invoices/draft";
import { addJob, changeBasis, takeJobOff } from "@/lib/data/invoices/draftJobs";
import { addInvoiceLine, editLine, putLineBack } from "@/lib/data/invoices/edits";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { mailInvoice, makeInvoiceLink, makeJobLink } from "@/lib/data/invoices/links";
import { mailReady } from "@/lib/data/invoices/readyMail";
import { mailQueueOf } from "@/lib/data/mail/queue";
import { payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { mailDepositRequest, mailPaymentPaper } from "@/lib/data/payments/paperMail";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordForSeveral } from "@/lib/data/payments/several";
import { recordWriteOff, takeWriteOffBack } from "@/lib/data/payments/writeOff";
import { linkShown } from "@/lib/documents/linkCode";
import { Refusal } from "@/lib/domain/refusal";
import { action } from "@/lib/gate/action";
import type { OpenShop } from "@/lib/gate/open";
import { publicUrl } from "@/lib/gate/origin";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";
import { CreditPartSchema } from "@/lib/schemas/credits";
import { EinvoiceOrderSchema } from "@/lib/schemas/einvoices";
import { AddInvoiceLineSchema, EditLineSchema, PutLineBackSchema } from "@/lib/schemas/invoiceEdits";
import {
  AddJobSchema,
  ChangeBasisSchema,
  CreditInvoiceSchema,
  DiscardDraftSchema,
  DraftInvoiceSchema,
  InvoiceLinkSchema,
  IssueInvoiceSchema,
  JobLinkSchema,
  TakeJobOffSchema,
} from "@/lib/schemas/invoices";
import {
  BouncedSchema,
  FromBalanceSchema,
  moneyTyped,
  PaymentPaperSchema,
  PaymentSchema,
  PaySeveralSchema,
  RefundSchema,
  TakeDepositSchema,
  TakeWriteOffBackSchema,
  WriteOffSchema,
} from "@/lib/schemas/payments";
import { typedAmount } from "@/lib/schemas/typedAmount";
import { typedCredit } from "@/lib/schemas/typedCredit";
import { printForMail } from "@/lib/workers/mailPrints";

export const makeDraft = action("invoice.write", DraftInvoiceSchema, async (shop, input, call) => {
  const id = await draftInvoice(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/${id}`, toast: "Draft made. Nothing is issued yet." };
});

export const noteOrder = action("invoice.write", EinvoiceOrderSchema, async (shop, input) => {
  await noteOrderNumber(shop, input);
  return { toast: "Noted." };
});

export const switchBasis = action("invoice.write", ChangeBasisSchema, async (shop, input, call) => {
  await changeBasis(shop, { ...input, key: call.key });
  return { toast: input.basis === "fixed" ? "Now as quoted." : "Now as worked." };
});

export const addToDraft = action("invoice.write", AddJobSchema, async (shop, input, call) => {
  const id = await addJob(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/${id}`, toast: "The job is on the draft. Nothing is issued yet." };
});

export const takeOffDraft = action("invoice.write", TakeJobOffSchema, async (shop, input, call) => {
  await takeJobOff(shop, { ...input, key: call.key });
  return { toast: "The job is off the draft." };
});

export const changeDraftLine = action("invoice.write", EditLineSchema, async (shop, input, call) => {
  await editLine(shop, { ...input, requestKey: call.key });
  return { toast: "The line is changed." };
});

export const addDraftLine = action("invoice.write", AddInvoiceLineSchema, async (shop, input, call) => {
  await addInvoiceLine(shop, { ...input, key: call.key });
  return { toast: "The line is added." };
});

export const putBack = action("invoice.write", PutLineBackSchema, async (shop, input, call) => {
  await putLineBack(shop, { ...input, requestKey: call.key });
  return { toast: "Charged as it was." };
});

export const discard = action("invoice.write", DiscardDraftSchema, async (shop, input, call) => {
  const jobId = await discardDraft(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/new?job=${jobId}`, toast: "Draft discarded." };
});

export const issue = action("invoice.write", IssueInvoiceSchema, async (shop, input, call) => {
  const id = await issueInvoice(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/${id}`, toast: "Issued." };
});

export const credit = action("invoice.write", CreditInvoiceSchema, async (shop, input, call) => {
  const id = await creditInvoice(shop, { ...input, key: call.key });
  return { to: `/s/${shop.slug}/invoices/${id}`, toast: "Credited in full. The job can be invoiced again." };
});

export const creditSome = action("invoice.write", CreditPartSchema, async (shop, input, call) => {
  const { lines, whole, time, ...rest } = input;
  const left = await getCreditable(shop, input.id);
  if (!left)
    throw new Refusal("Nothing of this invoice is left to be credited.", "Look at it again.", {}, "conflict");
  const asked = typedCredit({ lines, whole }, left.lines, shop.settings);
  const corrected = input.corrected === "on";
  const id = await creditPart(shop, { ...rest, ...asked, corrected, key: call.key });
  if (corrected)
    return { to: `/s/${shop.slug}/invoices/${id}`, toast: "Credited. The corrected invoice is a draft." };
  return time === "correct"
    ? { to: `/s/${shop.slug}/jobs/${left.jobId}`, toast: "Credited. Now correct the time of the job." }
    : { to: `/s/${shop.slug}/invoices/${id}`, toast: "Credited." };
});

export const takeDeposit = action("payment.write", TakeDepositSchema, async (shop, input, call) => {
  await recordDeposit(shop, { ...moneyTyped(input, shop.settings), jobId: input.jobId, key: call.key });
  return { toast: "Deposit recorded." };
});

export const takePayment = action("payment.write", PaymentSchema, async (shop, input, call) => {
  const { invoiceId } = input;
  const keepRest = input.keepRest === "on";
  await recordPayment(shop, { ...moneyTyped(input, shop.settings), invoiceId, keepRest, key: call.key });
  return { toast: "Payment recorded." };
});

export const fromBalance = action("payment.write", FromBalanceSchema, async (shop, input, call) => {
  await payFromBalance(shop, { ...input, key: call.key });
  return { toast: "Taken from the balance." };
});

export const paySeveral = action("payment.write", PaySeveralSchema, async (shop, input, call) => {
  const { amount, keepRest, ...rest } = input;
  const amountMinor = typedAmount(amount, shop.settings);
  await recordForSeveral(shop, { ...rest, amountMinor, keepRest: keepRest === "on", key: call.key });
  return { to: `/s/${shop.slug}/customers/${input.customerId}`, toast: "Payment recorded." };
});

export const giveBack = action("payment.write", RefundSchema, async (shop, input, call) => {
  const { amount, ...rest } = input;
  await recordRefund(shop, { ...rest, amountMinor: typedAmount(amount, shop.settings), key: call.key });
  return { toast: "Recorded as given back." };
});

export const writeOff = action("payment.writeOff", WriteOffSchema, async (shop, input, call) => {
  const { amount, ...rest } = input;
  await recordWriteOff(shop, { ...rest, amountMinor: typedAmount(amount, shop.settings), key: call.key });
  return { toast: "Written off." };
});

export const dueAgain = action("payment.writeOff", TakeWriteOffBackSchema, async (shop, input, call) => {
  await takeWriteOffBack(shop, { ...input, key: call.key });
  return { toast: "The write-off is taken back: the rest is due again." };
});

export const askForDeposit = action("payment.write", JobLinkSchema, async (shop, input, call) => {
  await mailDepositRequest(shop, { ...input, origin: publicUrl().origin, key: call.key });
  sendSoon(shop);
  return { toast: "The mail is in the mail queue." };
});

export const mailReceipt = action("payment.write", PaymentPaperSchema, async (shop, input, call) => {
  await mailPaymentPaper(shop, { ...input, origin: publicUrl().origin, key: call.key });
  sendSoon(shop);
  return { toast: "The mail is in the mail queue." };
});

export const bounce = action("payment.write", BouncedSchema, async (shop, input, call) => {
  await recordBounced(shop, { ...input, key: call.key });
  return { toast: "Recorded as bounced." };
});

/** The link is shown once: only its hash is kept. */
export const linkInvoice = action("invoice.write", InvoiceLinkSchema, async (shop, input) => {
  const { path } = await makeInvoiceLink(shop, input.id);
  return { shown: linkShown(publicUrl().origin + path) };
});

export const linkJob = action("job.write", JobLinkSchema, async (shop, input) => {
  const { path } = await makeJobLink(shop, input.jobId);
  return { shown: linkShown(publicUrl().origin + path) };
});

/** Mails what waits, once the answer is on its way. */
const sendSoon = (shop: OpenShop) =>
  after(() =>
    sendDue(
      mailQueueOf(shop, () => new Date()),
      mailer(),
      (enclosed) => printForMail(shop, enclosed),
    ),
  );

export const sayReady = action("job.write", JobLinkSchema, async (shop, input, call) => {
  await mailReady(shop, { ...input, origin: publicUrl().origin, key: call.key });
  sendSoon(shop);
  return { toast: "The mail is in the mail queue." };
});

export const writeToCustomer = action("invoice.write", InvoiceLinkSchema, async (shop, input, call) => {
  await mailInvoice(shop, { id: input.id, origin: publicUrl().origin, key: call.key });
  sendSoon(shop);
  return { toast: "The mail is in the mail queue." };
});
