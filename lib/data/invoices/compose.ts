import { editedLines, type InvoiceEdit, type SideLines } from "@/lib/domain/invoices/edits";
import { depositLeftOf, settled } from "@/lib/domain/invoices/held";
import { missingFields } from "@/lib/domain/invoices/missing";
import type { Basis, PrintedInvoice, PrintedSeller } from "@/lib/domain/invoices/printed";
import { invoiceTotals } from "@/lib/domain/pricing/document";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { taxRegime } from "@/lib/domain/tax/rates";
import { invoiceRequirements } from "@/lib/domain/tax/requirements";
import { customerLocale } from "@/lib/words/language";
import { bikeName } from "../bikes/bikeName";
import { type BasisLines, rulesOf } from "./basis";
import type { InvoiceFacts } from "./facts";
import { linesOn } from "./lines";

/** What an invoice for the job would print if it were issued now; all money of the job so far is taken off. */
export function composeInvoice(
  facts: InvoiceFacts,
  basis: Basis,
  now: Date,
  edits: readonly InvoiceEdit[] = [],
): PrintedInvoice {
  const { job, settings } = facts;
  const charged = linesOn(basis, facts, now);
  const { currency, pricesIncludeTax, taxRegime: regime, quotes } = charged;
  const lines = editedLines(charged.lines, edits, sidesOf(facts, charged, edits, now), {
    ...rulesOf(facts),
    currency,
    pricesIncludeTax,
    taxRegime: regime,
  });
  const totals = invoiceTotals({ lines, pricesIncludeTax, taxRegime: regime }, depositLeftOf(job.payments));
  const rule = invoiceRequirements(regime, totals.grossMinor, currency);
  const today = dayIn(settings.zone, now);
  return {
    kind: "invoice",
    number: null,
    title: rule.title,
    issuedOn: today,
    dueOn: daysAfter(today, settings.paymentDays),
    supplyOn: job.finishedAt ? dayIn(settings.zone, job.finishedAt) : today,
    basis,
    credits: null,
    seller: sellerOf(settings, regime),
    buyer: {
      name: job.customer.name,
      address: job.customer.address,
      taxNumber: job.customer.taxNumber,
      business: job.customer.business,
    },
    jobs: [
      {
        number: job.number,
        title: job.title,
        bike: {
          name: bikeName(job.bike),
          plate: job.bike.plate,
          frameNumber: job.bike.frameNumber,
          odometerKm: job.odometerKm ?? job.bike.odometerKm,
        },
      },
    ],
    quotes,
    settlement: null,
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
    deposits: job.payments.map((payment) => ({
      paidOn: payment.paidOn,
      method: payment.method,
      amountMinor: settled(payment),
    })),
    note: settings.documentNote,
    rule: { tier: rule.tier, source: rule.source },
  };
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

/** The shop as its documents name it. */
export function sellerOf(settings: InvoiceFacts["settings"], regime: string): PrintedSeller {
  const { name, legalName, taxNumber, address, phone, email, bankDetails } = settings;
  return {
    name,
    legalName,
    taxNumber,
    numberName: taxRegime(regime).numberName,
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
