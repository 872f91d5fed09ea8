import type { ModelFacts } from "./facts";
import { type Missing, warningsOf } from "./openEnds";
import { type Clash, type DecidedBy, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { settle } from "./resolve";
import { STEPS_OF_ALL, solverOf } from "./solve";
import { keptBeside } from "./ticks";

export type { Missing };

export interface Followed {
  readonly option: string;
  readonly because: string;
  readonly by: DecidedBy;
  /** For a forbidden option that `tick` can still take: the ticks it would undo. Absent when this bike cannot have it. */
  readonly undoes?: readonly string[];
}

export interface Choice {
  /** Ticked and forced options, in the recipe's order. */
  readonly chosen: readonly string[];
  readonly forced: readonly Followed[];
  readonly forbidden: readonly Followed[];
  readonly warnings: readonly { readonly option: string; readonly because: string }[];
  readonly missing: readonly Missing[];
  /** The first thing that cannot stand among the ticked options; null when there is none. */
  readonly clash: Clash | null;
  /** True when nothing clashes and nothing is missing. */
  readonly valid: boolean;
}

/**
 * What follows from the ticked options on this bike: what comes with them, what they rule out, what to be
 * warned of and what is still to be chosen, each with its reason. Complete: an option is forbidden exactly when no
 * full choice holds both it and the ticked ones, and forced exactly when every full choice holds it. Where the search for that
 * reaches its limit, an option is left open; a choice is still called valid only when every group and rule is kept.
 * Refuses option keys that the recipe does not have.
 */
export function choose(recipe: Recipe, chosenKeys: readonly string[], modelFacts: ModelFacts): Choice {
  const q = questionOf(recipe, modelFacts);
  const solver = solverOf(q, { left: STEPS_OF_ALL });
  const { verdicts, clash, missing } = settle(q, solver, chosenKeys);
  const chosen = q.options.filter((key) => verdicts.get(key)?.on);
  const followed = (on: boolean): Followed[] =>
    q.options.flatMap((option) => {
      const verdict = verdicts.get(option);
      return verdict && verdict.on === on && verdict.by !== "choice"
        ? [{ option, because: verdict.because, by: verdict.by }]
        : [];
    });
  const undoing = (option: string): Pick<Followed, "undoes"> => {
    const kept = keptBeside(q, solver, chosenKeys, option);
    return kept === null ? {} : { undoes: chosenKeys.filter((key) => !kept.includes(key)) };
  };
  return {
    chosen,
    forced: followed(true),
    forbidden: followed(false).map((one) => ({ ...one, ...undoing(one.option) })),
    warnings: warningsOf(recipe, chosen, modelFacts),
    missing,
    clash,
    valid: clash === null && missing.length === 0,
  };
}

/**
 * Answers, for one set of ticks after another, whether they make a valid choice on this bike and which options are then chosen:
 * what `choose` says, without its reasons. Throws what `choose` throws.
 */
export function chooser(recipe: Recipe, modelFacts: ModelFacts) {
  const q = questionOf(recipe, modelFacts);
  const solver = solverOf(q, { left: STEPS_OF_ALL });
  return (chosenKeys: readonly string[]): Pick<Choice, "chosen" | "valid"> => {
    const { verdicts, clash, missing } = settle(q, solver, chosenKeys);
    return {
      chosen: q.options.filter((key) => verdicts.get(key)?.on),
      valid: clash === null && missing.length === 0,
    };
  };
}

/**
 * The ticks that can stand together on this bike, in the order given: each that goes with those before it. One of which that is
 * not decided within the search's limit does not stand.
 */
export function standing(recipe: Recipe, keys: readonly string[], modelFacts: ModelFacts): string[] {
  const q = questionOf(recipe, modelFacts);
  const solver = solverOf(q, { left: STEPS_OF_ALL });
  const on = new Map<string, Verdict>();
  for (const key of keys) {
    const trial = new Map(on).set(key, { on: true, because: "", by: "choice" });
    if (q.placeOf.has(key) && solver.complete(trial, keys).can)
      on.set(key, { on: true, because: "", by: "choice" });
  }
  return [...on.keys()];
}

/** The ticks a new quote starts with: each preset option, in the recipe's order, that fits the bike and those before it. */
export function presetChoice(recipe: Recipe, modelFacts: ModelFacts): string[] {
  const presets = recipe.options.filter((option) => option.preset).map((option) => option.key);
  return standing(recipe, presets, modelFacts);
}
