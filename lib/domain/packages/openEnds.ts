import { inWords } from "./cardFacts";
import { type ModelFacts, meets } from "./facts";
import type { Question, Verdict } from "./question";
import type { Recipe } from "./recipe";

/** A choice still to be made: one of `options`. `group` is absent where a rule, not a group, asks for it. */
export interface Missing {
  readonly group?: string;
  readonly options: readonly string[];
  readonly because: string;
}

/** Groups and rules that still ask for one of several options. */
export function missingOf(q: Question, verdicts: ReadonlyMap<string, Verdict>): Missing[] {
  const open = (keys: readonly string[]) => keys.filter((key) => q.placeOf.has(key) && !verdicts.has(key));
  const on = (key: string) => verdicts.get(key)?.on === true;
  return q.constraints.flatMap((c): Missing[] => {
    if (c.kind === "group") {
      if (c.group.choose !== "exactly one" || c.options.some(on)) return [];
      return [{ group: c.group.key, options: open(c.options), because: `Choose one of “${c.group.name}”.` }];
    }
    if (c.rule.kind !== "needs" || !on(c.rule.option) || c.rule.anyOf.some(on)) return [];
    return [
      {
        options: open(c.rule.anyOf),
        because: `${q.nameOf(c.rule.option)} needs one of these: ${c.rule.why}`,
      },
    ];
  });
}

/** What to say beside the chosen options: rules that warn, and conditions the model card leaves open. */
export function warningsOf(recipe: Recipe, chosen: readonly string[], facts: ModelFacts) {
  return recipe.rules.flatMap((rule) => {
    if (!chosen.includes(rule.option)) return [];
    if (rule.kind === "only when" && meets(rule, facts) === null)
      return [
        {
          option: rule.option,
          because: `Check that ${inWords(rule)}; the model card does not say. ${rule.why}`,
        },
      ];
    if (rule.kind !== "warns") return [];
    const applies =
      (rule.without === undefined || !chosen.includes(rule.without)) &&
      (rule.with === undefined || chosen.includes(rule.with));
    return applies ? [{ option: rule.option, because: rule.why }] : [];
  });
}
