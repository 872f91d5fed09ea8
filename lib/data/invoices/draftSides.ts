import { type InvoiceEdit, type TypedInvoiceLine, typedOf } from "@/lib/domain/invoices/edits";
import type { Basis, PrintedLine } from "@/lib/domain/invoices/printed";
import { editsOfJob, jobOfKey, keyOfJob } from "@/lib/domain/invoices/severalJobs";
import type { PriceLine } from "@/lib/domain/pricing/facts";
import { Refusal } from "@/lib/domain/refusal";
import { costless } from "./basis";
import type { InvoiceFacts } from "./facts";
import type { ChargedJob, ChargedJobs } from "./jobsOn";
import { linesOn } from "./lines";

/** One line of a draft: as agreed, as worked and as it is charged, each null where it is not there. */
export interface DraftSide {
  readonly key: string;
  /** Number of its job, on a draft of several. */
  readonly job: string | null;
  readonly name: string;
  readonly agreedMinor: number | null;
  readonly workedMinor: number | null;
  readonly chargedMinor: number | null;
  /** What the fields that change it begin with; null where it can only be taken from a basis. */
  readonly typed: TypedInvoiceLine | null;
  readonly edit: InvoiceEdit | null;
}

/** Every line of both bases and of the draft, side by side, job by job: of each the draft's own first, in its order. */
export function draftSides(
  jobs: ChargedJobs,
  charged: readonly PrintedLine[],
  edits: readonly InvoiceEdit[],
  now: Date,
): DraftSide[] {
  return jobs.flatMap((one, at) => {
    const job = at === 0 ? null : one.facts.job.number;
    const lines = charged.flatMap((line) => {
      const of = jobOfKey(line.key);
      return of.job === job ? [{ ...line, key: of.key }] : [];
    });
    return sidesOf(one, lines, editsOfJob(edits, job), now).map((side) => ({
      ...side,
      key: keyOfJob(job, side.key),
      job: jobs.length > 1 ? one.facts.job.number : null,
    }));
  });
}

function sidesOf(
  { facts, basis, kept }: ChargedJob,
  charged: readonly PrintedLine[],
  edits: readonly InvoiceEdit[],
  now: Date,
): Omit<DraftSide, "job">[] {
  const agreed = sideOf("fixed", facts, now);
  const worked = sideOf("asWorked", facts, now);
  const own = kept?.lines ?? (basis === "fixed" ? agreed : worked);
  const changed = new Map(edits.map((edit) => [edit.key, edit]));
  const keys = new Set(
    [...charged, ...own, ...agreed, ...worked].map((line) => line.key).filter((key) => isOwn(key, changed)),
  );
  const amount = (lines: readonly PrintedLine[], key: string) =>
    lines.find((line) => line.key === key)?.shownMinor ?? null;
  return [...keys].map((key) => {
    const edit = changed.get(key) ?? null;
    const line = [...charged, ...own, ...agreed, ...worked].find((one) => one.key === key);
    const base = own.find((one) => one.key === key);
    return {
      key,
      name: line?.name ?? key,
      agreedMinor: amount(agreed, key),
      workedMinor: amount(worked, key),
      chargedMinor: amount(charged, key),
      typed: edit?.line ?? (base ? typedOf(base, own) : null),
      edit,
    };
  });
}

/** What comes off a line that was changed goes with that line. */
const isOwn = (key: string, changed: ReadonlyMap<string, InvoiceEdit>): boolean =>
  !key.startsWith("off-") || !changed.has(key.slice("off-".length));

/** The lines of a basis; none where it cannot be had, which its own page says. */
function sideOf(basis: Basis, facts: InvoiceFacts, now: Date): readonly PriceLine[] {
  try {
    return linesOn(basis, facts, now).lines.map(costless);
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    return [];
  }
}
