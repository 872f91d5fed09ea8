import type { CardStep } from "@/lib/data/jobs/card";
import type { StepFacts } from "@/lib/domain/offline/judge";

/** What a device needs to know of a step, to tell without a connection whether it can be passed. */
export function factsOf(step: CardStep): StepFacts {
  return {
    holds: step.holdPoints
      .filter((hold) => !hold.passed && !hold.overrideReason)
      .map(({ id, kind, name, unit, low, high, measures, asksCarburettor }) => ({
        id,
        kind,
        name,
        unit,
        low,
        high,
        measures,
        asksCarburettor,
      })),
    parts: step.parts
      .filter((one) => one.state === "held")
      .map(({ id, part }) => ({ id, name: `${part.name} (${part.code})` })),
    jets: step.jets.flatMap((jet, at) => (jet.settled ? [] : [{ at, name: jet.name }])),
  };
}
