import { invoiceTotals, netLines } from "../pricing/document";
import type { PriceLine } from "../pricing/facts";
import { Refusal } from "../refusal";
import type { InvoiceEdit } from "./edits";
import type { PrintedInvoice } from "./printed";

/** So many jobs stand on one invoice: each is read whole to compose it. Judgement. */
export const MOST_JOBS = 12;

const FURTHER = /^job-([^/]+)\/(.+)$/s;

/** The key on a document of a line of a job: those of the first job (null) keep theirs, a further one's say its number. */
export const keyOfJob = (job: string | null, key: string): string =>
  job === null ? key : `job-${job}/${key}`;

/** The job (null: the first) and the key that its own line has. */
export function jobOfKey(key: string): { readonly job: string | null; readonly key: string } {
  const [, job, own] = FURTHER.exec(key) ?? [];
  return own === undefined ? { job: null, key } : { job: job ?? null, key: own };
}

/** What was changed by hand on the lines of one job (null: the first), under the keys that its lines have by themselves. */
export const editsOfJob = (edits: readonly InvoiceEdit[], job: string | null): InvoiceEdit[] =>
  edits.flatMap((edit) => {
    const of = jobOfKey(edit.key);
    return of.job === job ? [{ ...edit, key: of.key }] : [];
  });

/** One job of a document with its lines, and how they are priced. */
export interface JobLines {
  readonly number: string;
  readonly lines: readonly PriceLine[];
  readonly currency: string;
  readonly pricesIncludeTax: boolean;
  readonly taxRegime: string;
}

/**
 * The lines of a document of one or several jobs, in the jobs' order. One job's lines are returned as they are. Of several, each
 * line says its job, and with tax in the prices the nets are shared out anew over all of them, so that the document adds up.
 * Throws Refusal where jobs were priced in different ways.
 */
export function linesOfJobs([first, ...further]: readonly [JobLines, ...JobLines[]]): readonly PriceLine[] {
  if (further.length === 0) return first.lines;
  const other = further.find(
    (one) =>
      one.currency !== first.currency ||
      one.pricesIncludeTax !== first.pricesIncludeTax ||
      one.taxRegime !== first.taxRegime,
  );
  if (other)
    throw new Refusal(
      `Job ${other.number} was priced under other tax settings than job ${first.number}.`,
      "Charge both as worked, which prices all of it in one way, or invoice them apart.",
      {},
      "conflict",
    );
  const lines = [first, ...further].flatMap((one, at) =>
    one.lines.map((line) => ({
      ...line,
      key: keyOfJob(at === 0 ? null : one.number, line.key),
      job: one.number,
    })),
  );
  return netLines(lines, first.pricesIncludeTax);
}

/** What one job of a document comes to with tax, in minor units: what its agreement is held against. */
export function grossOfJob(doc: PrintedInvoice, job: string): number {
  if (doc.jobs.length <= 1) return doc.grossMinor;
  const lines = doc.lines
    .filter((line) => line.job === job)
    .map((line): PriceLine => ({ ...line, costMinor: null }));
  return invoiceTotals({ lines, pricesIncludeTax: doc.pricesIncludeTax, taxRegime: doc.taxRegime })
    .grossMinor;
}
