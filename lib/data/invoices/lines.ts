import type { Basis, PrintedLine } from "@/lib/domain/invoices/printed";
import { workedLabour, workedParts } from "@/lib/domain/invoices/worked";
import { netLines } from "@/lib/domain/pricing/document";
import type { PriceLine } from "@/lib/domain/pricing/facts";
import { priceQuote } from "@/lib/domain/pricing/quote";
import { Refusal } from "@/lib/domain/refusal";
import { type FrozenLine, type FrozenQuote, storedQuote } from "../documents/quote";
import { entryOf } from "../jobs/time/overrun";
import type { InvoiceFacts } from "./facts";

export interface BasisLines {
  readonly lines: readonly PriceLine[];
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
  readonly quotes: readonly number[];
}

export function linesOn(basis: Basis, facts: InvoiceFacts, now: Date): BasisLines {
  return basis === "fixed" ? fixedLines(facts) : workedLines(facts, now);
}

/** A printed line with no cost, where the domain wants a whole one. */
export const costless = (line: FrozenLine | PrintedLine): PriceLine => ({ ...line, costMinor: null });

function agreedQuotes({ job }: InvoiceFacts): FrozenQuote[] {
  if (job.revision.frozen === null)
    throw new Refusal(
      "The quote of this job was never frozen, so there is no agreed price.",
      "Invoice it as worked.",
    );
  const variations = job.variations.flatMap((variation) =>
    variation.revisions.map((revision) => storedQuote(revision.frozen)),
  );
  return [storedQuote(job.revision.frozen), ...variations];
}

/** The lines as agreed: of the accepted quote, then of each accepted variation. */
function fixedLines(facts: InvoiceFacts): BasisLines {
  const agreed = agreedQuotes(facts);
  const [first, ...variations] = agreed;
  if (!first) throw new Error("An accepted job without a quote.");
  const { currency, pricesIncludeTax, taxRegime } = first;
  const other = variations.find(
    (q) => q.currency !== currency || q.pricesIncludeTax !== pricesIncludeTax || q.taxRegime !== taxRegime,
  );
  if (other)
    throw new Refusal(
      `Variation ${other.number} was priced under other tax settings than quote ${first.number}.`,
      "Invoice the job as worked: that prices all of it in one way.",
    );
  const lines = agreed.flatMap((quote, at) =>
    quote.lines.map((line) =>
      costless(
        at === 0
          ? line
          : { ...line, key: `${quote.number}-${line.key}`, name: `${line.name} (variation ${quote.number})` },
      ),
    ),
  );
  // Several documents become one: with tax in the prices, their nets are shared out anew so that the one adds up.
  const whole = variations.length === 0 ? lines : netLines(lines, pricesIncludeTax);
  return { lines: whole, currency, pricesIncludeTax, taxRegime, quotes: agreed.map((quote) => quote.number) };
}

/** The lines as worked: minutes billed by grade, parts really used at the price rules, and work bought outside as quoted. */
function workedLines(facts: InvoiceFacts, now: Date): BasisLines {
  const { job, settings, grades, bands } = facts;
  const agreed = job.revision.frozen === null ? [] : agreedQuotes(facts);
  const unit = settings.billingUnit === "tenths" ? "tenths" : "minutes";
  const { currency, locale, pricesIncludeTax, taxRegime } = settings;
  const outside = agreed.flatMap((quote) => quote.lines.filter((line) => line.kind === "outside"));
  const priced = priceQuote({
    currency,
    locale,
    pricesIncludeTax,
    taxRegime,
    taxRates: {
      standardBp: settings.taxRateBp,
      taxed: { labour: settings.taxLabour, part: settings.taxParts },
    },
    labour: workedLabour(job.steps, job.timeEntries.map(entryOf), grades, unit, now.getTime()),
    sharedMinutesSaved: 0,
    parts: workedParts(job.moves),
    fixed: [],
    outside: outside.map((line) => ({
      key: line.key,
      name: line.name,
      priceMinor: line.shownMinor,
      costMinor: 0,
    })),
    sundriesBp: settings.sundriesBp,
    sundriesMaxMinor: settings.sundriesMaxMinor,
    discountBp: job.customer.discountBp,
    discountWhy: job.customer.discountClass,
    minimumMarginBp: 0,
    markupBands: bands,
  });
  const unpriced = priced.unpriced?.[0];
  if (unpriced !== undefined)
    throw new Refusal(
      `Part ${unpriced} was used and has no price.`,
      "Give it a cost or a price under Stock, then look again.",
    );
  if (priced.lines.length === 0)
    throw new Refusal(
      "No time and no parts are recorded on this job.",
      "Invoice it as quoted, or enter the time first.",
    );
  return {
    lines: priced.lines,
    currency,
    pricesIncludeTax,
    taxRegime,
    quotes: agreed.map((quote) => quote.number),
  };
}
