import { z } from "zod";
import { MOST_JOBS } from "@/lib/domain/invoices/severalJobs";
import type { InvoiceStanding } from "@/lib/domain/invoices/state";
import { cursorId, recordId } from "./ids";
import type { StateWord } from "./jobWords";

const version = z
  .string()
  .regex(/^\d{1,9}$/, "Open the page again.")
  .transform(Number);
const basis = z.enum(["fixed", "asWorked"], "Choose how the job is invoiced.");
const typedDay = z.string().regex(/^\d{4}-\d{2}-\d{2}$/, "Enter the day.");

/** `also`: further jobs of the same customer, on the same basis. */
export const DraftInvoiceSchema = z.object({
  jobId: recordId,
  basis,
  also: z.array(recordId).max(MOST_JOBS, `An invoice holds at most ${MOST_JOBS} jobs.`).default([]),
});
export const AddJobSchema = z.object({ id: recordId, version, jobId: recordId, basis });
export const TakeJobOffSchema = z.object({ id: recordId, version, jobId: recordId });
/** Without a job: of the one that the draft began with. */
export const ChangeBasisSchema = z.object({ id: recordId, version, basis, jobId: recordId.optional() });
export const DiscardDraftSchema = z.object({ id: recordId, version });

/** `shownMinor` is the total the person agreed to: a draft that has come to another is not issued. */
export const IssueInvoiceSchema = z.object({
  id: recordId,
  version,
  shownMinor: z
    .string()
    .regex(/^-?\d{1,15}$/)
    .transform(Number)
    .optional(),
  /** Said by whoever issues it: a date before the last document's is meant. */
  earlier: z.literal("on").optional(),
});

export const creditReason = z
  .string()
  .default("")
  .transform((text) => text.trim())
  .pipe(
    z
      .string()
      .min(3, "Say why it is credited: it is printed on the credit note.")
      .max(300, "Keep the reason within 300 characters."),
  );

export const CreditInvoiceSchema = z.object({
  id: recordId,
  reason: creditReason,
  earlier: z.literal("on").optional(),
});

export const InvoiceLinkSchema = z.object({ id: recordId });
/** A payment reminder, with words of whoever sends it. */
export const JobLinkSchema = z.object({ jobId: recordId });

export const INVOICE_FILTERS = ["draft", "unpaid", "late", "closed", "credited"] as const;
export type InvoiceFilter = (typeof INVOICE_FILTERS)[number];

export const InvoiceQuery = z.object({
  state: z.enum(INVOICE_FILTERS).optional().catch(undefined),
  q: z.string().max(120).optional().catch(undefined),
  after: cursorId,
});
export type InvoiceQueryInput = z.output<typeof InvoiceQuery>;

/** Days between which documents are exported; both ends count. */
export const ExportQuery = z.object({
  from: typedDay.optional().catch(undefined),
  to: typedDay.optional().catch(undefined),
});

export const STANDING_WORDS: Readonly<Record<InvoiceStanding, StateWord>> = {
  draft: { word: "draft", shape: "circle" },
  open: { word: "issued", shape: "square", tone: "ink" },
  partPaid: { word: "part paid", shape: "diamond", tone: "brass" },
  paid: { word: "paid", shape: "filled", tone: "pine" },
  writtenOff: { word: "written off", shape: "dash", tone: "oxide" },
  late: { word: "late", shape: "triangle", tone: "oxide" },
  credited: { word: "credited", shape: "dash" },
  credit: { word: "credit note", shape: "dash", tone: "ink" },
  toPayBack: { word: "to pay back", shape: "diamond", tone: "oxide" },
};

export const KIND_WORDS = { invoice: "invoice", creditNote: "credit note", receipt: "receipt" } as const;
export const KIND_NAMES = { invoice: "Invoice", creditNote: "Credit note", receipt: "Receipt" } as const;
/** As the names of files say it. */
export const KIND_FILES = { invoice: "invoice", creditNote: "credit-note", receipt: "receipt" } as const;

export const BASIS_WORDS = { fixed: "as quoted", asWorked: "as worked" } as const;

export type DraftInvoice = Omit<z.output<typeof DraftInvoiceSchema>, "also"> & { also?: readonly number[] };
export type IssueInvoice = z.output<typeof IssueInvoiceSchema>;
export type CreditInvoice = z.output<typeof CreditInvoiceSchema>;
