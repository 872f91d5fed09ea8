import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { type BrokenRule, brokenRules } from "@/lib/domain/einvoice/requirements";
import type { InvoiceEdit } from "@/lib/domain/invoices/edits";
import { depositLeftOf, writtenOff } from "@/lib/domain/invoices/held";
import { type Missing, missingFields } from "@/lib/domain/invoices/missing";
import type { Basis, PrintedInvoice } from "@/lib/domain/invoices/printed";
import { asMoved } from "@/lib/domain/invoices/sharing";
import { daysLate, outstanding, standing } from "@/lib/domain/invoices/state";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { storedInvoice } from "../documents/invoice";
import { storedKept } from "../documents/kept";
import { withEinvoice } from "../einvoice/printed";
import { type Addressee, withheldFrom } from "../mail/letters";
import { lettersAbout } from "../mail/list";
import { firstOpenDay } from "../shop/closing";
import { composeInvoice } from "./compose";
import { type DraftSide, draftSides } from "./draftSides";
import { editsOf } from "./edits";
import { invoiceFacts, liveInvoice } from "./facts";
import { jobsOn } from "./jobsOn";
import { laterThan } from "./order";
import { payAskOf } from "./paying";
import { INVOICE_ROW } from "./rows";
import { draftsToJoin, joinableTo } from "./together";

const PAYMENTS = {
  select: {
    id: true,
    kind: true,
    invoiceId: true,
    method: true,
    amountMinor: true,
    roundingMinor: true,
    paidOn: true,
    reference: true,
    reversesId: true,
    at: true,
  },
  orderBy: { id: "asc" },
  take: 200,
} satisfies Prisma.Job$paymentsArgs;

const PAGE = {
  ...INVOICE_ROW,
  frozen: true,
  hash: true,
  kept: true,
  reason: true,
  credits: { select: { id: true, kind: true, written: true } },
  customer: { select: { id: true, name: true, phone: true, email: true, noLetters: true } },
  job: {
    select: {
      id: true,
      number: true,
      title: true,
      state: true,
      payments: PAYMENTS,
    },
  },
  furtherJobs: {
    select: {
      basis: true,
      job: { select: { id: true, number: true, title: true, state: true, payments: PAYMENTS } },
    },
    orderBy: { id: "asc" },
  },
  sale: { select: { payments: PAYMENTS } },
} satisfies Prisma.InvoiceSelect;

export type InvoiceView = NonNullable<Awaited<ReturnType<typeof getInvoice>>>;

/** One invoice or credit note for its page; a draft is composed from what stands now, or says why it cannot be. */
export async function getInvoice(shop: ShopHandle, id: number) {
  const [row, { zone, cashRoundingMinor }, edits, letters] = await Promise.all([
    shop.read.invoice.findUnique({ where: { id }, select: PAGE }),
    shop.read.settings.findUniqueOrThrow({
      where: { id: 1 },
      select: { zone: true, cashRoundingMinor: true },
    }),
    editsOf(shop.read, id),
    lettersAbout(shop.read, { noun: "invoice", nounId: id }),
  ]);
  if (!row) return null;
  const today = dayIn(zone, shop.now);
  const { frozen: json, kept: keptJson, sale, job, furtherJobs, ...rest } = row;
  const kept = row.state === "draft" ? storedKept(keptJson) : null;
  const jobs = [...(job ? [{ ...job, basis: row.basis }] : []), ...furtherJobs.map(flat)];
  const payments = sale?.payments ?? jobs.flatMap((one) => one.payments);
  const writtenOffMinor = writtenOff(payments.filter((payment) => payment.invoiceId === row.id));
  const money = { ...row, credited: row.takenBack, writtenOff: writtenOffMinor > 0 };
  const issued: Drafted | null = row.state === "issued" ? { doc: storedInvoice(json) } : null;
  const asked = issued?.doc && outstanding(money) > 0 ? issued.doc : null;
  const [made, joinable, payOn, later, ask, paper] = await Promise.all([
    issued ?? drafted(shop, row, edits),
    row.state === "draft" && job ? joinableTo(shop, job.id) : [],
    firstOpenDay(shop.read, today),
    laterThan(shop.read, today),
    asked && payAskOf(shop.read, asked),
    withheldFrom(shop.read, row.kind === "receipt" ? "receipt" : "invoice", toWhom(row)),
  ]);
  return {
    ...rest,
    ...made,
    /** Number of the invoice whose lines a draft begins with. */
    corrects: kept && kept.jobs.length > 0 ? kept.corrects : null,
    jobs: jobs.map(({ payments: own, ...one }) => ({ ...one, heldMinor: depositLeftOf(own) })),
    joinable,
    edits,
    today,
    /** The day that stands in forms of money at first. */
    payOn,
    later,
    cashRoundingMinor,
    missing: made.doc && row.state === "draft" ? missingFields(made.doc) : ([] as Missing[]),
    /** What keeps a draft from being a valid e-invoice. */
    broken: made.doc && row.state === "draft" ? brokenRules(made.doc) : ([] as BrokenRule[]),
    leftMinor: outstanding(money),
    /** How what is left is asked for. */
    ask,
    standing: standing(money, today),
    letters,
    withheld: { paper },
    lateDays: daysLate(money, today),
    payments: asMoved(payments),
    /** What of it was written off, in minor units. */
    writtenOffMinor,
    depositLeftMinor: depositLeftOf(payments),
  };
}

const toWhom = ({ customer }: { customer: Addressee | null }): Addressee =>
  customer ?? { email: "", noLetters: false };

const flat = ({ job, basis }: { job: JobOnPage; basis: string }) => ({ ...job, basis });

type JobOnPage = NonNullable<Prisma.InvoiceGetPayload<{ select: typeof PAGE }>["job"]>;

export interface Drafted {
  readonly doc?: PrintedInvoice;
  readonly refused?: { readonly message: string; readonly remedy: string };
  readonly sides?: readonly DraftSide[];
}

async function drafted(
  shop: ShopHandle,
  row: { id: number; jobId: number | null; customerId: number | null; basis: string },
  edits: readonly InvoiceEdit[],
): Promise<Drafted & { sides: readonly DraftSide[] }> {
  const jobs = await jobsOn(shop.read, row);
  const made = attempt(() => composeInvoice(jobs, shop.now, edits));
  const of = { customerId: row.customerId, invoiceId: row.id };
  const doc = made.doc && (await withEinvoice(shop.read, of, made.doc));
  return {
    ...made,
    ...(doc ? { doc } : {}),
    sides: draftSides(jobs, made.doc?.lines ?? [], edits, shop.now),
  };
}

function attempt(run: () => PrintedInvoice): Drafted {
  try {
    return { doc: run() };
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return { refused: { message: cause.message, remedy: cause.remedy } };
  }
}

export type InvoicePreview = NonNullable<Awaited<ReturnType<typeof previewInvoice>>>;

/** A job's money before its invoice: both ways of invoicing side by side, what was agreed to be paid first, and what came in. */
export async function previewInvoice(shop: ShopHandle, jobId: number) {
  const there = await shop.read.job.findUnique({ where: { id: jobId }, select: { id: true } });
  if (!there) return null;
  const [facts, payments] = await Promise.all([
    invoiceFacts(shop.read, jobId),
    shop.read.payment.findMany({ where: { jobId }, ...PAYMENTS }),
  ]);
  const { job, settings } = facts;
  const of = (basis: Basis) => attempt(() => composeInvoice([{ facts, basis }], shop.now));
  const live = liveInvoice(facts);
  const [joinable, drafts, payOn] = await Promise.all([
    live ? [] : joinableTo(shop, jobId),
    live ? [] : draftsToJoin(shop, jobId),
    firstOpenDay(shop.read, dayIn(settings.zone, shop.now)),
  ]);
  return {
    job: { id: job.id, number: job.number, title: job.title, state: job.state, customer: job.customer.name },
    fixed: of("fixed"),
    asWorked: of("asWorked"),
    depositAskedMinor: job.revision.depositMinor,
    depositLeftMinor: depositLeftOf(payments),
    payments,
    live: live ? { id: live.id, written: live.written, state: live.state } : null,
    joinable,
    drafts,
    payOn,
  };
}
