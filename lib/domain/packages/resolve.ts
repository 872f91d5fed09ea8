import { Refusal } from "../refusal";
import { follow } from "./follow";
import { type Missing, missingOf } from "./openEnds";
import type { Clash, Question, Verdict } from "./question";
import type { Solver } from "./solve";

/** What follows from ticks, without the words about it. */
interface Settled {
  readonly verdicts: ReadonlyMap<string, Verdict>;
  readonly clash: Clash | null;
  readonly missing: readonly Missing[];
}

/** Settles all options that the ticks decide. Refuses ticks that the recipe does not have. */
export function settle(q: Question, solver: Solver, chosenKeys: readonly string[]): Settled {
  const unknown = chosenKeys.find((key) => !q.placeOf.has(key));
  if (unknown !== undefined)
    throw new Refusal(
      `This package has no option “${unknown}”.`,
      "Choose from the package's present options.",
    );
  const verdicts = new Map<string, Verdict>();
  for (const key of chosenKeys) verdicts.set(key, { on: true, because: "Chosen.", by: "choice" });
  const clash = follow(q, verdicts) ?? lookAhead(q, solver, verdicts);
  return { verdicts, clash, missing: clash ? [] : missingOf(q, verdicts) };
}

/**
 * Settles what step-by-step following cannot see by trying each open option both ways; a full choice found on the way answers for
 * every option in it.
 */
function lookAhead(q: Question, solver: Solver, verdicts: Map<string, Verdict>): Clash | null {
  const choice = (on: boolean): Verdict => ({ on, because: "", by: "choice" });
  const seen = { on: new Set<string>(), off: new Set<string>() };
  const can = (given: ReadonlyMap<string, Verdict>): boolean => {
    const found = solver.complete(given);
    if (found.can) for (const key of q.options) (found.on.has(key) ? seen.on : seen.off).add(key);
    return found.can !== false;
  };
  if (!can(verdicts)) {
    const options = q.options.filter((key) => verdicts.get(key)?.by === "choice");
    return { options, because: "However the rest is chosen, a rule of the package is broken." };
  }
  for (const key of q.options) {
    if (verdicts.has(key)) continue;
    const trial = new Map(verdicts).set(key, choice(true));
    if (!seen.on.has(key) && !can(trial)) {
      const because =
        follow(q, trial)?.because ?? "However the rest is chosen, a rule of the package would be broken.";
      verdicts.set(key, { on: false, because: `It cannot be added: ${because}`, by: "rule" });
    } else if (!seen.off.has(key) && !can(new Map(verdicts).set(key, choice(false))))
      verdicts.set(key, { on: true, because: "Every choice that fits the rest includes it.", by: "rule" });
  }
  return null;
}
