import { settingDef } from "../tuning/settings";
import { deadEnds } from "./clash";
import { shortestCycle } from "./cycle";
import { inWords } from "./facts";
import { changeConflict } from "./needs";
import type { Recipe, Rule } from "./recipe";
import { canComplete, type Constraint, questionOf, type Verdict } from "./solve";
import { brokenOperations } from "./check-work";

export interface Problem {
  readonly kind: "name" | "duplicate" | "operation" | "access" | "setting" | "cycle" | "clash" | "rule";
  /** What is wrong and where, in a sentence. */
  readonly message: string;
  /** Keys of the options, operations, accesses or groups concerned. */
  readonly names: readonly string[];
}

/**
 * Everything that keeps a recipe from being published; an empty list means it may be. Looks for: names used twice or
 * that mean nothing, operations without minutes or access, setting changes that name no setting or leave its range,
 * circles in "after" and in access needs, accesses that can never be open together, options that no choice on any bike
 * can have (naming the smallest clash), and options that go together but put one setting to different values.
 */
export function checkRecipe(recipe: Recipe): Problem[] {
  const names = [...duplicates(recipe), ...unknownNames(recipe)];
  const work = [...brokenOperations(recipe), ...circles(recipe)];
  return [...names, ...work, ...brokenChanges(recipe), ...brokenRules(recipe), ...clashes(recipe)];
}

function duplicates(recipe: Recipe): Problem[] {
  const lists = { group: recipe.groups, option: recipe.options, operation: recipe.operations, access: recipe.accesses };
  return Object.entries(lists).flatMap(([what, list]) => {
    const keys = list.map((item) => item.key);
    const twice = new Set(keys.filter((key, i) => keys.indexOf(key) !== i));
    return [...twice].map((key): Problem => ({ kind: "duplicate", message: `Two ${what}s have the key “${key}”.`, names: [key] }));
  });
}

function unknownNames(recipe: Recipe): Problem[] {
  const keys = (list: readonly { readonly key: string }[]) => new Set(list.map((item) => item.key));
  const [groups, options, operations, accesses] = [recipe.groups, recipe.options, recipe.operations, recipe.accesses].map(keys);
  const unknown = (known: Set<string> | undefined, what: string, where: string, used: readonly string[]): Problem[] =>
    used
      .filter((name) => !known?.has(name))
      .map((name) => ({ kind: "name", message: `${where} names the ${what} “${name}”, which this package does not have.`, names: [name] }));
  return [
    ...recipe.options.flatMap((o) => [
      ...unknown(groups, "group", `Option “${o.name}”`, [o.group]),
      ...unknown(operations, "operation", `Option “${o.name}”`, o.operations),
    ]),
    ...recipe.operations.flatMap((o) => [
      ...unknown(accesses, "access", `Operation “${o.name}”`, o.accesses),
      ...unknown(operations, "operation", `Operation “${o.name}”`, o.after),
    ]),
    ...recipe.accesses.flatMap((a) => unknown(accesses, "access", `Access “${a.name}”`, [...a.needs, ...a.excludes])),
    ...recipe.rules.flatMap((rule) => unknown(options, "option", `The rule “${rule.why}”`, optionsOf(rule))),
  ];
}

function optionsOf(rule: Rule): string[] {
  if (rule.kind === "needs") return [rule.option, ...rule.anyOf];
  if (rule.kind === "excludes") return [rule.option, rule.other];
  if (rule.kind === "only when") return [rule.option];
  return [rule.option, rule.without, rule.with].filter((key) => key !== undefined);
}

function circles(recipe: Recipe): Problem[] {
  const after = shortestCycle(recipe.operations.map((o) => o.key), (key) => recipe.operations.find((o) => o.key === key)?.after ?? []);
  const access = shortestCycle(recipe.accesses.map((a) => a.key), (key) => recipe.accesses.find((a) => a.key === key)?.needs ?? []);
  const said = (what: string, names: string[] | null): Problem[] =>
    names ? [{ kind: "cycle", message: `${what} run in a circle: ${[...names, names[0]].join(" → ")}.`, names }] : [];
  return [...said("Operations that come after one another", after), ...said("Accesses that need one another", access)];
}

function brokenChanges(recipe: Recipe): Problem[] {
  return recipe.options.flatMap((option) =>
    option.changes.flatMap((change): Problem[] => {
      const def = settingDef(change.setting);
      const say = (message: string): Problem[] => [{ kind: "setting", message: `Option “${option.name}” ${message}`, names: [option.key] }];
      if (!def) return say(`changes “${change.setting}”, which is no setting.`);
      if (change.change === "computed") return change.value === undefined ? [] : say(`has ${def.name} computed and also gives it a value.`);
      if (change.value === undefined) return say(`changes ${def.name} without a value.`);
      const [low, high] = change.change === "set" ? [def.low, def.high] : [def.low - def.high, def.high - def.low];
      const inside = change.value >= low && change.value <= high;
      return inside ? [] : say(`puts ${def.name} to ${change.value}, outside ${low} to ${high}.`);
    }),
  );
}

function brokenRules(recipe: Recipe): Problem[] {
  return recipe.rules.flatMap((rule): Problem[] => {
    const say = (message: string): Problem[] => [{ kind: "rule", message, names: [rule.option] }];
    if (rule.kind === "needs" && rule.anyOf.length === 0) return say(`The rule “${rule.why}” needs one of nothing.`);
    if (rule.kind === "excludes" && rule.option === rule.other) return say(`The rule “${rule.why}” excludes an option from itself.`);
    const ordered = rule.kind === "only when" && rule.op !== "=" && rule.op !== "!=";
    return ordered && typeof rule.value !== "number" ? say(`The rule “${rule.why}” compares ${rule.fact} with a word.`) : [];
  });
}

function clashes(recipe: Recipe): Problem[] {
  const name = (key: string) => `“${recipe.options.find((option) => option.key === key)?.name ?? key}”`;
  const dead = deadEnds(recipe).map(({ option, clash }): Problem => ({
    kind: "clash",
    message: `${option === null ? "Nothing can be chosen" : `${name(option)} can never be chosen`}: ${clash.map((c) => said(c, name)).join("; ")}.`,
    names: [...new Set([...(option === null ? [] : [option]), ...clash.flatMap((c) => (c.kind === "group" ? [c.group.key] : optionsOf(c.rule)))])],
  }));
  const q = questionOf(recipe, null);
  const on: Verdict = { on: true, because: "", by: "choice" };
  const pairs = recipe.options.flatMap((a, i) => recipe.options.slice(i + 1).map((b) => [a, b] as const));
  const settings = pairs.flatMap(([a, b]): Problem[] => {
    const conflict = changeConflict([a, b]);
    if (!conflict || !canComplete(q, new Map([[a.key, on], [b.key, on]]))) return [];
    const message = `${name(a.key)} and ${name(b.key)} can be chosen together but put ${conflict.setting} to different values.`;
    return [{ kind: "setting", message, names: [a.key, b.key] }];
  });
  return [...dead, ...settings];
}

function said(c: Constraint, name: (key: string) => string): string {
  if (c.kind === "group") return `“${c.group.name}” takes ${c.group.choose} of ${c.options.map(name).join(", ") || "no options"}`;
  if (c.rule.kind === "needs") return `${name(c.rule.option)} needs ${c.rule.anyOf.map(name).join(" or ")}`;
  if (c.rule.kind === "excludes") return `${name(c.rule.option)} excludes ${name(c.rule.other)}`;
  return `${name(c.rule.option)} only when ${inWords(c.rule)}`;
}
