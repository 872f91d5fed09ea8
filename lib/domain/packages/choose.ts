import { Refusal } from "../refusal";
import type { ModelFacts } from "./facts";
import { type Missing, missingOf, warningsOf } from "./openEnds";
import { type Clash, type DecidedBy, type Question, questionOf, type Verdict } from "./question";
import type { Recipe } from "./recipe";
import { canComplete, follow } from "./solve";
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
 * full choice holds both it and the ticked ones, and forced exactly when every full choice holds it.
 * Refuses option keys that the recipe does not have.
 */
export function choose(recipe: Recipe, chosenKeys: readonly string[], modelFacts: ModelFacts): Choice {
  const q = questionOf(recipe, modelFacts);
  const unknown = chosenKeys.find((key) => !q.options.includes(key));
  if (unknown !== undefined)
    throw new Refusal(
      `This package has no option “${unknown}”.`,
      "Choose from the package's present options.",
    );
  const verdicts = new Map<string, Verdict>();
  for (const key of chosenKeys) verdicts.set(key, { on: true, because: "Chosen.", by: "choice" });
  const clash = follow(q, verdicts) ?? lookAhead(q, verdicts);

  const chosen = q.options.filter((key) => verdicts.get(key)?.on);
  const followed = (on: boolean): Followed[] =>
    q.options.flatMap((option) => {
      const verdict = verdicts.get(option);
      return verdict && verdict.on === on && verdict.by !== "choice"
        ? [{ option, because: verdict.because, by: verdict.by }]
        : [];
    });
  const missing = clash ? [] : missingOf(q, verdicts);
  return {
    chosen,
    forced: followed(true),
    forbidden: followed(false).map((one) => ({ ...one, ...undoing(q, chosenKeys, one.option) })),
    warnings: warningsOf(recipe, chosen, modelFacts),
    missing,
    clash,
    valid: clash === null && missing.length === 0,
  };
}

function undoing(q: Question, ticks: readonly string[], option: string): Pick<Followed, "undoes"> {
  const kept = keptBeside(q, ticks, option);
  return kept === null ? {} : { undoes: ticks.filter((key) => !kept.includes(key)) };
}

/** Settles what step-by-step following cannot see by trying each open option both ways. */
function lookAhead(q: Question, verdicts: Map<string, Verdict>): Clash | null {
  const choice = (on: boolean): Verdict => ({ on, because: "", by: "choice" });
  if (!canComplete(q, verdicts)) {
    const options = q.options.filter((key) => verdicts.get(key)?.by === "choice");
    return { options, because: "However the rest is chosen, a rule of the package is broken." };
  }
  for (const key of q.options) {
    if (verdicts.has(key)) continue;
    const trial = new Map(verdicts).set(key, choice(true));
    const why = follow(q, trial)?.because;
    if (why !== undefined || !canComplete(q, trial)) {
      const because = why ?? "However the rest is chosen, a rule of the package would be broken.";
      verdicts.set(key, { on: false, because: `It cannot be added: ${because}`, by: "rule" });
    } else if (!canComplete(q, new Map(verdicts).set(key, choice(false)))) {
      verdicts.set(key, { on: true, because: "Every choice that fits the rest includes it.", by: "rule" });
    }
  }
  return null;
}

/** The ticks a new quote starts with: each preset option, in the recipe's order, that fits the bike and those before it. */
export function presetChoice(recipe: Recipe, modelFacts: ModelFacts): string[] {
  const q = questionOf(recipe, modelFacts);
  const on = new Map<string, Verdict>();
  for (const option of recipe.options) {
    const trial = new Map(on).set(option.key, { on: true, because: "", by: "choice" });
    if (option.preset && canComplete(q, trial)) on.set(option.key, { on: true, because: "", by: "choice" });
  }
  return [...on.keys()];
}
