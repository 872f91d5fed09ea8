import { couldAllHold, inWords, type ModelFacts, meets, type OnlyWhen } from "./facts";
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
  readonly constraints: readonly Constraint[];
  readonly facts: ModelFacts | null;
  readonly nameOf: (option: string) => string;
}

/** All that a recipe demands of a choice. Rules that name unknown options are left to `checkRecipe`. */
export function questionOf(recipe: Recipe, facts: ModelFacts | null): Question {
  const names = new Map(recipe.options.map((option) => [option.key, option.name]));
  const groups = recipe.groups.map((group): Constraint => ({
    kind: "group",
    group,
    options: recipe.options.filter((option) => option.group === group.key).map((option) => option.key),
  }));
  const rules = recipe.rules.flatMap((rule): Constraint[] =>
    rule.kind === "warns" || !names.has(rule.option) ? [] : [{ kind: "rule", rule }],
  );
  const nameOf = (key: string) => `“${names.get(key) ?? key}”`;
  return { options: [...names.keys()], constraints: [...groups, ...rules], facts, nameOf };
}

/** What one constraint adds to the verdicts so far: further verdicts, or a clash. */
type Finding = { readonly key: string; readonly verdict: Verdict } | { readonly clash: Clash };

const clash = (options: readonly string[], because: string): Finding[] => [{ clash: { options, because } }];

function ofGroup(c: Extract<Constraint, { kind: "group" }>, q: Question, isOn: (k: string) => boolean | undefined): Finding[] {
  if (c.group.choose === "any") return [];
  const on = c.options.filter((key) => isOn(key) === true);
  const alive = c.options.filter((key) => isOn(key) !== false);
  const label = `“${c.group.name}”`;
  const [first] = on;
  if (on.length > 1) return clash(on, `${label} takes only one of ${on.map(q.nameOf).join(" and ")}.`);
  if (first !== undefined)
    return c.options.filter((key) => key !== first).map((key) => ({
      key,
      verdict: { on: false, because: `${label} takes only one, and ${q.nameOf(first)} is chosen.`, by: "group" },
    }));
  if (c.group.choose === "at most one") return [];
  const [last] = alive;
  if (last === undefined) return clash(c.options, `${label} needs one, and none is left that fits.`);
  if (alive.length > 1) return [];
  return [{ key: last, verdict: { on: true, because: `It is the only choice left in ${label}.`, by: "group" } }];
}

function ofRule(rule: Exclude<Rule, { kind: "warns" }>, q: Question, isOn: (k: string) => boolean | undefined): Finding[] {
  const own = isOn(rule.option);
  if (rule.kind === "excludes") {
    const off = (key: string, other: string): Finding[] =>
      isOn(other) ? [{ key, verdict: { on: false, because: `It does not go with ${q.nameOf(other)}: ${rule.why}`, by: "rule" } }] : [];
    if (own && isOn(rule.other)) return clash([rule.option, rule.other], `${q.nameOf(rule.option)} does not go with ${q.nameOf(rule.other)}: ${rule.why}`);
    return [...off(rule.option, rule.other), ...off(rule.other, rule.option)];
  }
  if (rule.kind === "only when") {
    if (q.facts === null || meets(rule, q.facts) !== false) return [];
    const because = `It is only for bikes with ${inWords(rule)}; the model card says ${q.facts[rule.fact]}. ${rule.why}`;
    return own ? clash([rule.option], because) : [{ key: rule.option, verdict: { on: false, because, by: "model" } }];
  }
  const alive = rule.anyOf.filter((key) => q.options.includes(key) && isOn(key) !== false);
  const wanted = rule.anyOf.map(q.nameOf).join(" or ");
  const [only] = alive;
  if (only === undefined) {
    const because = `${q.nameOf(rule.option)} needs ${wanted}, which cannot be chosen here: ${rule.why}`;
    return own ? clash([rule.option, ...rule.anyOf], because) : [{ key: rule.option, verdict: { on: false, because, by: "rule" } }];
  }
  if (!own || alive.length > 1) return [];
  return [{ key: only, verdict: { on: true, because: `${q.nameOf(rule.option)} needs it: ${rule.why}`, by: "rule" } }];
}

/** Adds to `verdicts` all that follows step by step from those it holds; returns the first clash, or null. */
export function follow(q: Question, verdicts: Map<string, Verdict>): Clash | null {
  const isOn = (key: string) => verdicts.get(key)?.on;
  for (let grew = true; grew; ) {
    grew = false;
    for (const c of q.constraints) {
      for (const found of c.kind === "group" ? ofGroup(c, q, isOn) : ofRule(c.rule, q, isOn)) {
        if ("clash" in found) return found.clash;
        if (verdicts.has(found.key)) continue;
        verdicts.set(found.key, found.verdict);
        grew = true;
      }
    }
  }
  if (q.facts !== null) return null;
  const asked = q.constraints.flatMap((c): OnlyWhen[] =>
    c.kind === "rule" && c.rule.kind === "only when" && isOn(c.rule.option) ? [c.rule] : [],
  );
  if (couldAllHold(asked)) return null;
  return { options: [...new Set(asked.map((rule) => rule.option))], because: "No bike meets all of their conditions." };
}

/** Whether the verdicts can be completed to a full choice that keeps every constraint (backtracking, complete). */
export function canComplete(q: Question, verdicts: ReadonlyMap<string, Verdict>): boolean {
  const trial = new Map(verdicts);
  if (follow(q, trial)) return false;
  const open = q.options.find((key) => !trial.has(key));
  if (open === undefined) return true;
  return [false, true].some((on) => canComplete(q, new Map(trial).set(open, { on, because: "", by: "choice" })));
}
