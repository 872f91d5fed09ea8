import { optionsOf } from "./problem";
import type { ItemPart, Recipe } from "./recipe";

/**
 * A recipe after one of its items has been taken out of its list: the names of that item go as well, out of options, operations
 * and accesses; a rule that named a taken-out option goes, but one that needs any of several keeps the others. A taken-out group
 * leaves its options where they are: the authoring checks then name them.
 */
export function without(recipe: Recipe, part: ItemPart, key: string): Recipe {
  const { picks } = recipe;
  const rest = thinned(recipe, part, key);
  return picks ? { ...rest, picks: picks.filter((pick) => pick.part !== part || pick.key !== key) } : rest;
}

function thinned(recipe: Recipe, part: ItemPart, key: string): Recipe {
  const off = (keys: readonly string[]) => keys.filter((one) => one !== key);
  if (part === "operations")
    return {
      ...recipe,
      options: recipe.options.map((o) => ({
        ...o,
        operations: off(o.operations),
        parts: o.parts.map(({ operation, ...need }) =>
          operation === undefined || operation === key ? need : { ...need, operation },
        ),
      })),
      operations: recipe.operations.map((o) => ({ ...o, after: off(o.after) })),
    };
  if (part === "accesses")
    return {
      ...recipe,
      operations: recipe.operations.map((o) => ({ ...o, accesses: off(o.accesses) })),
      accesses: recipe.accesses.map((a) => ({ ...a, needs: off(a.needs), excludes: off(a.excludes) })),
    };
  if (part !== "options") return recipe;
  const kept = recipe.rules.map((rule) =>
    rule.kind === "needs" && rule.option !== key && rule.anyOf.some((one) => one !== key)
      ? { ...rule, anyOf: off(rule.anyOf) }
      : rule,
  );
  return { ...recipe, rules: kept.filter((rule) => !optionsOf(rule).includes(key)) };
}
