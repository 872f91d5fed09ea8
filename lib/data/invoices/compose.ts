import { editedLines, type InvoiceEdit, type SideLines } from "@/lib/domain/invoices/edits";
import { depositLeftOf, settled, standingMoney } from "@/lib/domain/invoices/held";
import { missingFields } from "@/lib/domain/invoices/missing";
import type { Basis, PrintedInvoice, PrintedJob, PrintedSeller } from "@/lib/domain/invoices/printed";
import { editsOfJob, linesOfJobs } from "@/lib/domain/invoices/severalJobs";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { invoiceRequirements } from "@/lib/domain/tax/requirements";
import { saidOfNumber } from "@/lib/domain/tax/sellerNumber";
import { customerLocale } from "@/lib/words/language";
import { bikeName } from "../bikes/bikeName";
import { type BasisLines, rulesOf } from "./basis";
import type { InvoiceFacts } from "./facts";
import type { ChargedJob, ChargedJobs } from "./jobsOn";
import { chargedOn, linesOn } from "./lines";

/** What an invoice for these jobs would print if it were issued now; all money of the jobs so far is taken off. */
export function composeInvoice(
  jobs: ChargedJobs,
  now: Date,
  edits: readonly InvoiceEdit[] = [],
): PrintedInvoice {
  const [{ facts, basis }] = jobs;
  const { job, settings } = facts;
  const charged = jobs.map((one, at) => chargedLines(one, at === 0, now, edits));
  const [first, ...further] = charged;
  if (!first) throw new Error("An invoice of no job.");
  const lines = linesOfJobs([first, ...further]);
  const { currency, pricesIncludeTax, taxRegime: regime } = first;
  const payments = jobs.flatMap(({ facts: { job: of } }) =>
    of.payments.map((payment) => ({ ...payment, of: of.number })),
  );
  const totals = invoiceTotals({ lines, pricesIncludeTax, taxRegime: regime }, depositLeftOf(payments));
  const rule = invoiceRequirements(regime, totals.grossMinor, currency);
  const today = dayIn(settings.zone, now);
  return {
    kind: "invoice",
    number: null,
    written: "",
    title: rule.title,
    issuedOn: today,
    dueOn: daysAfter(today, settings.paymentDays),
    supplyOn: lastDay(jobs, settings.zone) ?? today,
    basis,
    credits: null,
    seller: sellerOf(settings, regime),
    buyer: {
      name: job.customer.name,
      address: job.customer.address,
      taxNumber: job.customer.taxNumber,
      business: job.customer.business,
    },
    jobs: jobs.map((one) => printedJob(one.facts)),
    quotes: charged.flatMap((one) => one.quotes),
    settlements: [],
    country: settings.country,
    locale: customerLocale(settings.locale, job.customer.language),
    currency,
    pricesIncludeTax,
    taxRegime: regime,
    lines: lines.map(({ costMinor: _, ...line }) => line),
    taxes: totals.taxes,
    netMinor: totals.netMinor,
    taxMinor: totals.taxMinor,
    grossMinor: totals.grossMinor,
    prepaidMinor: totals.prepaidMinor,
    dueMinor: totals.dueMinor,
    deposits: standingMoney(payments).map((payment) => ({
      paidOn: payment.paidOn,
      method: payment.method,
      amountMinor: settled(payment),
      ...(jobs.length > 1 ? { job: payment.of } : {}),
    })),
    note: settings.documentNote,
    rule: { tier: rule.tier, source: rule.source },
  };
}

const printedJob = ({ job, settings }: InvoiceFacts): PrintedJob => ({
  number: job.number,
  title: job.title,
  bike: {
    name: bikeName(job.bike),
    plate: job.bike.plate,
    frameNumber: job.bike.frameNumber,
    odometerKm: job.odometerKm ?? job.bike.odometerKm,
    odometerUnits: settings.units,
  },
});

/** The day on which the last of the jobs was finished; null where none is. */
function lastDay(jobs: ChargedJobs, zone: string): string | null {
  const days = jobs.flatMap(({ facts }) => (facts.job.finishedAt ? [dayIn(zone, facts.job.finishedAt)] : []));
  return days.sort().at(-1) ?? null;
}

/** One job's lines on its basis, as they were changed by hand. */
function chargedLines(
  one: ChargedJob,
  first: boolean,
  now: Date,
  edits: readonly InvoiceEdit[],
): BasisLines & { readonly number: string } {
  const { facts } = one;
  const charged = chargedOn(one, now);
  const { currency, pricesIncludeTax, taxRegime } = charged;
  const { number } = facts.job;
  const own = editsOfJob(edits, first ? null : number);
  const lines = editedLines(charged.lines, own, sidesOf(facts, charged, own, now), {
    ...rulesOf(facts),
    currency,
    pricesIncludeTax,
    taxRegime,
  });
  return { ...charged, number, lines };
}

/** The lines of both bases, as far as a change takes one from them; those priced in another way than the draft are none. */
function sidesOf(
  facts: InvoiceFacts,
  charged: BasisLines,
  edits: readonly InvoiceEdit[],
  now: Date,
): SideLines {
  const side = (basis: Basis) => {
    if (!edits.some((edit) => edit.act === basis)) return null;
    const own = linesOn(basis, facts, now);
    const alike =
      own.currency === charged.currency &&
      own.pricesIncludeTax === charged.pricesIncludeTax &&
      own.taxRegime === charged.taxRegime;
    return alike ? own.lines : null;
  };
  return { fixed: side("fixed"), asWorked: side("asWorked") };
}

type SellerSettings = Omit<PrintedSeller, "numberName" | "numberMarks"> &
  Pick<InvoiceFacts["settings"], "country" | "inCompanyRegister">;

/** The shop as its documents name it. */
export function sellerOf(settings: SellerSettings, regime: string): PrintedSeller {
  const { name, legalName, taxNumber, address, phone, email, bankDetails } = settings;
  return {
    name,
    legalName,
    taxNumber,
    ...saidOfNumber(regime, settings.country, settings.inCompanyRegister),
    address,
    phone,
    email,
    bankDetails,
  };
}

/** Refuses a document that its tax regime would not accept, naming all that is missing and where to enter it. */
export function demandComplete(doc: PrintedInvoice): void {
  const missing = missingFields(doc);
  if (missing.length === 0) return;
  throw new Refusal(
    `This cannot be issued as “${doc.title}” (${doc.rule.tier}) yet: ${missing.map((one) => one.what).join(" and ")} ${missing.length > 1 ? "are" : "is"} missing.`,
    [...new Set(missing.map((one) => one.remedy))].join(" "),
  );
}
