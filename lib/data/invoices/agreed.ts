import type { FixedWork, StepOfWork } from "@/lib/domain/invoices/fixedWork";
import { fixedWork } from "@/lib/domain/invoices/fixedWork";
import { percent } from "@/lib/domain/money/round";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { QuoteTerms } from "@/lib/domain/quoting/terms";
import { Refusal } from "@/lib/domain/refusal";
import { storedTerms } from "@/lib/schemas/quoteTerms";
import { type FrozenLine, type FrozenQuote, storedQuote } from "../documents/quote";
import { operationsOf } from "../jobs/cardRows";
import type { InvoiceFacts } from "./facts";

/** A quote that the customer accepted for a job: the first is the job's own, the others are variations. */
export interface AgreedQuote {
  readonly frozen: FrozenQuote;
  readonly terms: QuoteTerms;
  readonly recipe: Recipe | null;
}

/** All that was agreed for a job. Empty where its own quote was never frozen. */
export function agreedOf({ job, card }: InvoiceFacts): AgreedQuote[] {
  if (job.revision.frozen === null) return [];
  const revisions = [job.revision, ...job.variations.flatMap((variation) => variation.revisions)];
  return revisions.map(({ id, frozen, terms }) => ({
    frozen: storedQuote(frozen),
    terms: storedTerms(terms),
    recipe: card.works.find((work) => work.revisionId === id)?.recipe ?? null,
  }));
}

/** As agreedOf, refusing a job without an agreed price. */
export function demandAgreed(facts: InvoiceFacts): [AgreedQuote, ...AgreedQuote[]] {
  const [first, ...variations] = agreedOf(facts);
  if (!first)
    throw new Refusal(
      "The quote of this job was never frozen, so there is no agreed price.",
      "Invoice it as worked.",
    );
  return [first, ...variations];
}

/** The key on an invoice of a line of an agreed quote: variations' own lines are told apart by their quote's number. */
export const lineKey = (quote: AgreedQuote, at: number, key: string): string =>
  at === 0 ? key : `${quote.frozen.number}-${key}`;

/** The code of a part's line, also where it is of one of several works, or came out of a kit. */
export function partCode({ key, work, kit }: FrozenLine): string {
  const own = work ? key.slice(work.length + 1) : key;
  return kit ? own.slice(0, own.length - ` in ${kit.code}`.length) : own;
}

/** A share off the whole document, as agreed: in the quote's text, in its terms, or the customer's own. */
export function shareOff({ frozen, terms }: AgreedQuote, { job }: InvoiceFacts): { bp: number; why: string } {
  if (frozen.discount) return frozen.discount;
  if (terms.discount?.kind === "percent") return { bp: terms.discount.bp, why: terms.discount.why };
  return { bp: job.customer.discountBp, why: job.customer.discountClass };
}

/** What the fixed prices of the agreed quotes pay for. */
export function fixedWorkOf(agreed: readonly AgreedQuote[], { job, card }: InvoiceFacts): FixedWork {
  const place = new Map(
    card.works.map(({ revisionId }, at) => {
      const revisions = [job.revision, ...job.variations.flatMap((variation) => variation.revisions)];
      return [at, revisions.findIndex((revision) => revision.id === revisionId)] as const;
    }),
  );
  const operations = operationsOf(card);
  const steps = job.steps.map(({ id, name, kind, state }): StepOfWork => {
    const found = operations.get(id);
    return {
      id,
      name,
      kind,
      state,
      work: found ? { from: place.get(found.from) ?? -1, operation: found.operation } : null,
    };
  });
  return fixedWork(
    agreed.map(({ recipe, frozen }) => ({ recipe, options: frozen.options.map((option) => option.key) })),
    steps,
  );
}

/** What a line shows, in the way that the shop shows prices now. */
export function shownNow(line: FrozenLine, wasInclusive: boolean, inclusive: boolean): number {
  if (wasInclusive === inclusive) return line.shownMinor;
  return inclusive ? line.netMinor + percent(line.netMinor, line.taxRateBp) : line.netMinor;
}
