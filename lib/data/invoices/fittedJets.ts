import { workedParts } from "@/lib/domain/invoices/worked";
import type { PartFact, UnsettledMark } from "@/lib/domain/pricing/facts";
import { Refusal } from "@/lib/domain/refusal";
import type { JetToSettle } from "@/lib/domain/sheets/jets";
import { jetName, storedJets } from "../jobs/jets";
import type { InvoiceFacts } from "./facts";

type Entry = JetToSettle & { readonly step: InvoiceFacts["job"]["steps"][number] };

/** What the steps of a job that were not skipped have to settle, or settled. */
const entriesOf = ({ job }: InvoiceFacts): Entry[] =>
  job.steps.flatMap((step) =>
    step.state === "skipped" ? [] : storedJets(step.unsettled).map((jet) => ({ ...jet, step })),
  );

/** Refuses an invoice while a step has not said which jet it fitted. */
export function demandSettled(facts: InvoiceFacts): void {
  const open = entriesOf(facts).find((jet) => !jet.settled);
  if (!open) return;
  throw new Refusal(
    `Step ${open.step.position}, “${open.step.name}”, does not say yet which ${jetName(open).toLowerCase()} was fitted.`,
    "Say it on the job's card and pass the step, or skip it with a reason; then invoice.",
    {},
    "conflict",
  );
}

/** Refuses an open line of a quote that no step of the job was ever asked about. */
export function demandAsked({ job }: InvoiceFacts, quote: string, { setting, family }: UnsettledMark): void {
  const asked = job.steps.some((step) =>
    storedJets(step.unsettled).some(
      (jet) => jet.quote === quote && jet.setting === setting && jet.family === family,
    ),
  );
  if (!asked)
    throw new Refusal(
      `Quote ${quote} leaves a jet of “${family}” open, and no step of the job fits it.`,
      "Invoice the job as worked: that bills the parts that were used.",
    );
}

/** The jets really fitted for an open line of a quote, as parts to be priced: what came from stock and did not come back. */
export function fittedFor(
  facts: InvoiceFacts,
  quote: string,
  { setting, family }: UnsettledMark,
): PartFact[] {
  const own = entriesOf(facts).filter(
    (jet) => jet.quote === quote && jet.setting === setting && jet.family === family,
  );
  const fitted = own.filter((jet) => jet.settled && jet.settled.partId !== null);
  return [...Map.groupBy(fitted, (jet) => jet.settled?.partId)].flatMap(([partId, jets]) => {
    const wantedMilli = jets.reduce((sum, jet) => sum + jet.quantityMilli, 0);
    const [used] = workedParts(facts.job.moves.filter((move) => move.part.id === partId));
    return used ? [{ ...used, quantityMilli: Math.min(used.quantityMilli, wantedMilli) }] : [];
  });
}
