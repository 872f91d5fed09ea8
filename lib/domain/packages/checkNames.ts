import { optionsOf, type Problem } from "./problem";
import type { Recipe } from "./recipe";

/** Keys used twice in one list. */
export function duplicates(recipe: Recipe): Problem[] {
  const lists = [
    ["group", "groups", recipe.groups],
    ["option", "options", recipe.options],
    ["operation", "operations", recipe.operations],
    ["access", "accesses", recipe.accesses],
  ] as const;
  return lists.flatMap(([what, part, list]) => {
    const keys = list.map((item: { readonly key: string }) => item.key);
    const twice = new Set(keys.filter((key, i) => keys.indexOf(key) !== i));
    return [...twice].map(
      (key): Problem => ({
        kind: "duplicate",
        message: `Two ${what === "access" ? "accesse" : what}s have the key “${key}”.`,
        names: [key],
        part,
      }),
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
  type At = Pick<Problem, "part" | "rules"> & { readonly where: string; readonly at: string };
  const unknown = (
    known: Set<string> | undefined,
    what: string,
    { where, at, ...place }: At,
    used: readonly string[],
  ): Problem[] =>
    used
      .filter((name) => !known?.has(name))
      .map((name) => ({
        kind: "name",
        message: `${where} names the ${what} “${name}”, which this package does not have.`,
        names: [at, name],
        ...place,
      }));
  return [
    ...recipe.options.flatMap((o) => {
      const at: At = { where: `Option “${o.name}”`, at: o.key, part: "options" };
      return [
        ...unknown(groups, "group", at, [o.group]),
        ...unknown(operations, "operation", at, o.operations),
      ];
    }),
    ...recipe.operations.flatMap((o) => {
      const at: At = { where: `Operation “${o.name}”`, at: o.key, part: "operations" };
      return [
        ...unknown(accesses, "access", at, o.accesses),
        ...unknown(operations, "operation", at, o.after),
      ];
    }),
    ...recipe.accesses.flatMap((a) => {
      const at: At = { where: `Access “${a.name}”`, at: a.key, part: "accesses" };
      return unknown(accesses, "access", at, [...a.needs, ...a.excludes]);
    }),
    ...recipe.rules.flatMap((rule) => {
      const at: At = { where: `The rule “${rule.why}”`, at: rule.option, part: "rules", rules: [rule] };
      return unknown(options, "option", at, optionsOf(rule));
    }),
  ];
}
