import type { KeptActName } from "@/lib/domain/offline/acts";
import type { StepFacts } from "@/lib/domain/offline/judge";

/**
 * Hidden fields of a form whose act a device may keep while there is no connection: which act it is, of which job, in words,
 * and what the device needs to know of the step. The server reads none of them.
 */
export function keptAs(
  act: KeptActName,
  jobId: number,
  said: string,
  facts?: StepFacts,
): Record<string, string> {
  return {
    _act: act,
    _job: String(jobId),
    _said: said,
    ...(facts ? { _facts: JSON.stringify(facts) } : {}),
  };
}
