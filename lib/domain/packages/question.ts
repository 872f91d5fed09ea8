import type { ModelFacts } from "./facts";
import type { OptionGroup, Recipe, Rule } from "./recipe";

/** Why an option is on or off: the person's tick, its group, a rule of the package, or the model card. */
export type DecidedBy = "choice" | "group" | "rule" | "model";

export interface Verdict {
  readonly on: boolean;
  readonly because: string;
  readonly by: DecidedBy;
}

/** Options that cannot stand together, with the reason. */
export interface Clash {
  readonly options: readonly string[];
  readonly because: string;
}

export type Constraint =
  | { readonly kind: "group"; readonly group: OptionGroup; readonly options: readonly string[] }
  | { readonly kind: "rule"; readonly rule: Exclude<Rule, { kind: "warns" }> };

/** A set of constraints with the names to say them by. `facts` null: judged for any bike rather than for one. */
export interface Question {
  readonly options: readonly string[];
  /** Where an option stands in `options`; undefined for a key that names none. */
  readonly placeOf: ReadonlyMap<string, number>;
  readonly constraints: readonly Constraint[];
  readonly facts: ModelFacts | null;
  readonly nameOf: (option: string) => string;
}

/** All that a recipe demands of a choice. Rules that name unknown options are left to `checkRecipe`. */
export function questionOf(recipe: Recipe, facts: ModelFacts | null): Question {
  const names = new Map(recipe.options.map((option) => [option.key, option.name]));
  const groups = recipe.groups.map(
    (group): Constraint => ({
      kind: "group",
      group,
      options: recipe.options.filter((option) => option.group === group.key).map((option) => option.key),
    }),
  );
  const rules = recipe.rules.flatMap((rule): Constraint[] =>
    rule.kind === "warns" || !names.has(rule.option) ? [] : [{ kind: "rule", rule }],
  );
  const nameOf = (key: string) => `“${names.get(key) ?? key}”`;
  const options = [...names.keys()];
  const placeOf = new Map(options.map((key, place) => [key, place]));
  return { options, placeOf, constraints: [...groups, ...rules], facts, nameOf };
}
