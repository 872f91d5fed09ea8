import { optionsOf, type Problem } from "./problem";
import type { Recipe } from "./recipe";

/** Keys used twice in one list. */
export function duplicates(recipe: Recipe): Problem[] {
  const lists = {
    group: recipe.groups,
    option: recipe.options,
    operation: recipe.operations,
    access: recipe.accesses,
  };
  return Object.entries(lists).flatMap(([what, list]) => {
    const keys = list.map((item) => item.key);
    const twice = new Set(keys.filter((key, i) => keys.indexOf(key) !== i));
    return [...twice].map(
      (key): Problem => ({ kind: "duplicate", message: `Two ${what}s have the key “${key}”.`, names: [key] }),
    );
  });
}

/** Names that mean nothing in this recipe, with where they stand. */
export function unknownNames(recipe: Recipe): Problem[] {
  const keys = (list: readonly { readonly key: string }[]) => new Set(list.map((item) => item.key));
  const [groups, options, operations, accesses] = [
    recipe.groups,
    recipe.options,
    recipe.operations,
    recipe.accesses,
  ].map(keys);
  const unknown = (
    known: Set<string> | undefined,
    what: string,
    where: string,
    used: readonly string[],
  ): Problem[] =>
    used
      .filter((name) => !known?.has(name))
      .map((name) => ({
        kind: "name",
        message: `${where} names the ${what} “${name}”, which this package does not have.`,
        names: [name],
      }));
  return [
    ...recipe.options.flatMap((o) => [
      ...unknown(groups, "group", `Option “${o.name}”`, [o.group]),
      ...unknown(operations, "operation", `Option “${o.name}”`, o.operations),
    ]),
    ...recipe.operations.flatMap((o) => [
      ...unknown(accesses, "access", `Operation “${o.name}”`, o.accesses),
      ...unknown(operations, "operation", `Operation “${o.name}”`, o.after),
    ]),
    ...recipe.accesses.flatMap((a) =>
      unknown(accesses, "access", `Access “${a.name}”`, [...a.needs, ...a.excludes]),
    ),
    ...recipe.rules.flatMap((rule) => unknown(options, "option", `The rule “${rule.why}”`, optionsOf(rule))),
  ];
}
