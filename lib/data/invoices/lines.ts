import type { Basis } from "@/lib/domain/invoices/printed";
import type { BasisLines } from "./basis";
import type { InvoiceFacts } from "./facts";
import { demandSettled } from "./fittedJets";
import { fixedLines } from "./fixedLines";
import type { ChargedJob } from "./jobsOn";
import { workedLines } from "./workedLines";

/** The lines of a job on a draft: what it keeps of the invoice that the draft corrects, or its basis's. */
export const chargedOn = ({ facts, basis, kept }: ChargedJob, now: Date): BasisLines =>
  kept ?? linesOn(basis, facts, now);

/** The lines of a job's invoice, as quoted or as worked. Refused while a step has not said which jet it fitted. */
export function linesOn(basis: Basis, facts: InvoiceFacts, now: Date): BasisLines {
  demandSettled(facts);
  return basis === "fixed" ? fixedLines(facts) : workedLines(facts, now);
}
