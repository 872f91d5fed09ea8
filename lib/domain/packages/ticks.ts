import { Refusal } from "../refusal";
import type { ModelFacts } from "./facts";
import { follow } from "./follow";
import { type Question, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { type Solver, STEPS_OF_ALL, solverOf } from "./solve";

const TICKED: Verdict = { on: true, because: "Chosen.", by: "choice" };
const allOn = (keys: readonly string[]) => new Map(keys.map((key) => [key, TICKED]));

/**
 * The ticks after a person ticks one more option: it is taken, and of the earlier ticks all are kept that can stand with it, the
 * latest first. So a person can go from one set of options to another although each step between them would break a rule.
 * `ticks` are what persons ticked, oldest first, without what was forced: keep that list, and ask `choose` for the rest.
 * Refuses an option that the package does not have or that this bike can never have.
 */
export function tick(
  recipe: Recipe,
  ticks: readonly string[],
  option: string,
  modelFacts: ModelFacts,
): string[] {
  const q = questionOf(recipe, modelFacts);
  const name = recipe.options.find((one) => one.key === option)?.name;
  if (name === undefined)
    throw new Refusal(
      `This package has no option “${option}”.`,
      "Choose from the package's present options.",
    );
  const kept = keptBeside(q, solverOf(q, { left: STEPS_OF_ALL }), ticks, option);
  if (kept === null) {
    const why =
      follow(q, allOn([option]))?.because ?? "However the rest is chosen, a rule of the package is broken.";
    throw new Refusal(
      `“${name}” cannot be chosen for this bike: ${why}`,
      "Choose something else, or correct the model card.",
    );
  }
  return [...kept, option];
}

/**
 * The earlier ticks that stay when an option is ticked, oldest first; null when the option cannot be had at all. A tick of which
 * that is not decided within the search's limit does not stay.
 */
export function keptBeside(
  q: Question,
  solver: Solver,
  ticks: readonly string[],
  option: string,
): string[] | null {
  let kept: string[] = [];
  let found = solver.complete(allOn([option]), ticks);
  if (found.can === false) return null;
  for (const earlier of ticks.toReversed()) {
    if (earlier === option || !q.placeOf.has(earlier)) continue;
    const more = [earlier, ...kept];
    // The full choice at hand may hold this tick too.
    if (!(found.can && found.on.has(earlier))) {
      const next = solver.complete(allOn([...more, option]), ticks);
      if (!next.can) continue;
      found = next;
    }
    kept = more;
  }
  return kept;
}
