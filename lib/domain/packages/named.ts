import { optionsOf } from "./problem";
import type { ItemPart, LibraryPick, Recipe, Rule } from "./recipe";

/** What else in a recipe names an item, in words: “Option “Main jet””, “the rule “…””. Empty: it stands alone. */
export function namedBy(recipe: Recipe, part: ItemPart, key: string): string[] {
  const said = (what: string, items: readonly { readonly name: string }[]) =>
    items.map((item) => `${what} “${item.name}”`);
  const others = <T extends { readonly key: string }>(items: readonly T[]) =>
    items.filter((item) => item.key !== key);
  if (part === "groups")
    return said(
      "option",
      recipe.options.filter((o) => o.group === key),
    );
  if (part === "options")
    return recipe.rules.filter((r) => optionsOf(r).includes(key)).map((r) => `the rule “${r.why}”`);
  if (part === "operations")
    return [
      ...said(
        "option",
        recipe.options.filter((o) => o.operations.includes(key)),
      ),
      ...said(
        "operation",
        others(recipe.operations).filter((o) => o.after.includes(key)),
      ),
    ];
  if (part === "accesses")
    return [
      ...said(
        "operation",
        recipe.operations.filter((o) => o.accesses.includes(key)),
      ),
      ...said(
        "access",
        others(recipe.accesses).filter((a) => a.needs.includes(key) || a.excludes.includes(key)),
      ),
    ];
  return [];
}

/** A recipe with one item's key changed, in its list and wherever it is named. */
export function renamed(recipe: Recipe, part: Exclude<ItemPart, "rules">, from: string, to: string): Recipe {
  const { picks } = recipe;
  const changed = renamedIn(recipe, part, from, to);
  if (!picks) return changed;
  const own = (pick: LibraryPick) => pick.part === part && pick.key === from;
  return { ...changed, picks: picks.map((pick) => (own(pick) ? { ...pick, key: to } : pick)) };
}

function renamedIn(recipe: Recipe, part: Exclude<ItemPart, "rules">, from: string, to: string): Recipe {
  const one = (key: string) => (key === from ? to : key);
  const all = (keys: readonly string[]) => keys.map(one);
  const own = <T extends { readonly key: string }>(items: readonly T[]) =>
    items.map((item) => ({ ...item, key: one(item.key) }));
  if (part === "groups")
    return {
      ...recipe,
      groups: own(recipe.groups),
      options: recipe.options.map((o) => ({ ...o, group: one(o.group) })),
    };
  if (part === "operations")
    return {
      ...recipe,
      operations: own(recipe.operations).map((o) => ({ ...o, after: all(o.after) })),
      options: recipe.options.map((o) => ({
        ...o,
        operations: all(o.operations),
        parts: o.parts.map((need) =>
          need.operation === undefined ? need : { ...need, operation: one(need.operation) },
        ),
      })),
    };
  if (part === "accesses")
    return {
      ...recipe,
      accesses: own(recipe.accesses).map((a) => ({ ...a, needs: all(a.needs), excludes: all(a.excludes) })),
      operations: recipe.operations.map((o) => ({ ...o, accesses: all(o.accesses) })),
    };
  return { ...recipe, options: own(recipe.options), rules: recipe.rules.map((rule) => ruleWith(rule, one)) };
}

function ruleWith(rule: Rule, one: (key: string) => string): Rule {
  const option = one(rule.option);
  if (rule.kind === "needs") return { ...rule, option, anyOf: rule.anyOf.map(one) };
  if (rule.kind === "excludes") return { ...rule, option, other: one(rule.other) };
  if (rule.kind === "only when") return { ...rule, option };
  return {
    ...rule,
    option,
    ...(rule.with === undefined ? {} : { with: one(rule.with) }),
    ...(rule.without === undefined ? {} : { without: one(rule.without) }),
  };
}
