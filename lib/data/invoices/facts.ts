import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { customerLocale, languageOf } from "@/lib/words/language";
import { cardRows } from "../jobs/cardRows";
import { ENTRY } from "../jobs/time/overrun";
import { accountOf } from "../shop/account";
import { phrasebook } from "../shop/phrases";
import { gradeRates, markups } from "../shop/prices";
import { inCompanyRegister } from "../shop/taxTerms";

const LIVE = {
  select: { id: true, written: true, state: true, takenBack: true },
} as const;

/** A reader or a transaction: a draft and an issue gather the same facts. */
export type Db = Pick<
  ShopTx,
  | "job"
  | "settings"
  | "bankAccount"
  | "labourGrade"
  | "markupBand"
  | "step"
  | "quoteRevision"
  | "phrase"
  | "taxTerms"
>;

const JOB = {
  id: true,
  number: true,
  title: true,
  state: true,
  odometerKm: true,
  finishedAt: true,
  customerId: true,
  customer: {
    select: {
      name: true,
      email: true,
      address: true,
      taxNumber: true,
      business: true,
      language: true,
      discountBp: true,
      discountClass: true,
    },
  },
  bike: {
    select: {
      year: true,
      plate: true,
      frameNumber: true,
      odometerKm: true,
      modelCard: { select: { make: true, model: true } },
    },
  },
  agreement: { select: { kind: true, chargedBp: true } },
  yeses: { select: { saidBy: true, upToMinor: true }, orderBy: { id: "desc" }, take: 1 },
  revision: {
    select: { id: true, frozen: true, terms: true, depositMinor: true, quote: { select: { number: true } } },
  },
  variations: {
    where: { state: "accepted" },
    select: {
      number: true,
      revisions: {
        where: { acceptance: { isNot: null } },
        select: { id: true, frozen: true, terms: true },
        orderBy: { number: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "asc" },
    take: 50,
  },
  steps: {
    select: {
      id: true,
      minutes: true,
      grade: true,
      position: true,
      name: true,
      kind: true,
      state: true,
      unsettled: true,
    },
    orderBy: { position: "asc" },
    take: 500,
  },
  timeEntries: {
    select: ENTRY,
    orderBy: { id: "asc" },
    take: 2000,
  },
  moves: {
    where: { kind: { in: ["use", "returnToStock"] } },
    select: {
      quantityMilli: true,
      unitCostE4: true,
      stepId: true,
      part: {
        select: {
          id: true,
          code: true,
          name: true,
          unit: true,
          priceE4: true,
          costE4: true,
          taxCategory: true,
        },
      },
    },
    orderBy: { id: "asc" },
    take: 1000,
  },
  payments: {
    select: {
      id: true,
      kind: true,
      invoiceId: true,
      method: true,
      amountMinor: true,
      roundingMinor: true,
      paidOn: true,
      reversesId: true,
    },
    orderBy: { id: "asc" },
    take: 500,
  },
  invoices: { where: { kind: "invoice" }, ...LIVE, orderBy: { id: "asc" }, take: 50 },
  alsoOn: {
    where: { invoice: { kind: "invoice" } },
    select: { invoice: LIVE },
    orderBy: { id: "asc" },
    take: 50,
  },
} satisfies Prisma.JobSelect;

export type InvoiceFacts = Awaited<ReturnType<typeof invoiceFacts>>;

/** Everything an invoice for a job is made from, in a fixed number of queries. Refuses a job that is not there. */
export async function invoiceFacts(db: Db, jobId: number) {
  const [job, settings, grades, bands, account, registered, card] = await Promise.all([
    db.job.findUnique({ where: { id: jobId }, select: JOB }),
    db.settings.findUniqueOrThrow({ where: { id: 1 } }),
    gradeRates(db),
    markups(db),
    accountOf(db),
    inCompanyRegister(db),
    cardRows(db, jobId),
  ]);
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  // What of it is printed is said in the customer's language, where the shop wrote it so.
  const say = await phrasebook(db, languageOf(customerLocale(settings.locale, job.customer.language)));
  return {
    job,
    account,
    settings: {
      ...settings,
      documentNote: say(settings.documentNote),
      inCompanyRegister: registered,
    },
    grades: grades.map((grade) => ({ ...grade, name: say(grade.name) })),
    bands,
    card,
  };
}

/** The job's one invoice that still stands, its own or one that it shares: a draft, or issued and not taken back. */
export function liveInvoice({ job }: InvoiceFacts) {
  const all = [...job.invoices, ...job.alsoOn.map((one) => one.invoice)];
  return all.find((invoice) => !invoice.takenBack) ?? null;
}
