import { measurable } from "../tuning/measurables";
import { settingDef } from "../tuning/settings";
import { sameUnit } from "../units/unitNamed";
import { changedBy, MAKES_NEEDLE } from "./needleOption";
import { MADE_PARTS } from "./partOption";
import type { Problem } from "./problem";
import type { Operation, Option, PartNeed, Recipe } from "./recipe";

/**
 * The operation that takes a part of an option from stock: the one that the part names; else the option's only one; else,
 * for a jet, the one that makes its setting. Null where nothing says so, as in a package written before parts named their
 * operation, and where the option has no operation.
 */
export function takenBy(recipe: Recipe, option: Option, need: PartNeed): string | null {
  const own = option.operations;
  if (need.operation !== undefined) return own.includes(need.operation) ? need.operation : null;
  if (own.length < 2) return own[0] ?? null;
  if (need.kind === "part") return null;
  const makers = recipe.operations.filter((o) => own.includes(o.key) && o.makes?.includes(need.setting));
  return makers.length === 1 ? (makers[0]?.key ?? null) : null;
}

/**
 * The settings that each operation makes in the work that some options come to, by the operation's key: what the operation
 * itself names; then the setting of each jet that it takes; then an option's changes that no other operation of it makes,
 * where the option has one operation.
 */
export function madeBy(recipe: Recipe, options: readonly Option[]): Map<string, readonly string[]> {
  const made = new Map<string, Set<string>>();
  const add = (operation: string, setting: string) =>
    made.set(operation, (made.get(operation) ?? new Set()).add(setting));
  const changed = new Set(options.flatMap(changedBy));
  const wanted = new Set(options.flatMap((option) => option.operations));
  for (const { key, makes } of recipe.operations)
    if (wanted.has(key)) for (const setting of makes ?? []) if (changed.has(setting)) add(key, setting);
  const has = (setting: string) => [...made.values()].some((settings) => settings.has(setting));
  for (const option of options) {
    for (const need of option.parts) {
      const operation = need.kind === "jet" && !has(need.setting) ? takenBy(recipe, option, need) : null;
      if (need.kind === "jet" && operation !== null && changed.has(need.setting))
        add(operation, need.setting);
    }
    const [only, ...others] = option.operations;
    if (only === undefined || others.length > 0) continue;
    for (const setting of changedBy(option)) if (!has(setting)) add(only, setting);
  }
  return new Map([...made].map(([key, settings]) => [key, [...settings]]));
}

/** Parts whose operation is not said or not the option's, changes that no operation makes, and names that are no setting. */
export function untaken(recipe: Recipe): Problem[] {
  return [
    ...recipe.options.flatMap((option) => [
      ...partsUntaken(recipe, option),
      ...changesUnmade(recipe, option),
    ]),
    ...recipe.operations.flatMap(namesNoSetting),
    ...recipe.operations.flatMap(measuresNothing),
  ];
}

function partsUntaken(recipe: Recipe, option: Option): Problem[] {
  return option.parts.flatMap((need): Problem[] => {
    if (option.operations.length === 0 || takenBy(recipe, option, need) !== null) return [];
    const what = need.kind === "part" ? need.code : need.family;
    const said =
      need.operation === undefined ? "several operations could" : "the one named is not this option’s";
    return [
      {
        kind: "operation",
        message: `Option “${option.name}” does not say which operation takes “${what}”: ${said}.`,
        names: [option.key],
        part: "options",
      },
    ];
  });
}

function changesUnmade(recipe: Recipe, option: Option): Problem[] {
  if (option.operations.length < 2) return [];
  const made = new Set([...madeBy(recipe, [option]).values()].flat());
  return changedBy(option)
    .filter((setting) => !made.has(setting) && (settingDef(setting) || isObject(setting)))
    .map((setting) => ({
      kind: "setting",
      message: `Option “${option.name}” changes ${settingDef(setting)?.name ?? `the ${setting}`}, and none of its operations makes it: mark it on the one that does.`,
      names: [option.key],
      part: "options",
    }));
}

/** True of what an operation may make that is no setting. */
export function isObject(name: string): boolean {
  return name === MAKES_NEEDLE || MADE_PARTS.some((kind) => kind === name);
}

function namesNoSetting(operation: Operation): Problem[] {
  return (operation.makes ?? [])
    .filter((setting) => !settingDef(setting) && !isObject(setting))
    .map((setting) => ({
      kind: "setting",
      message: `Operation “${operation.name}” names “${setting}”, which is no setting.`,
      names: [operation.key],
      part: "operations",
    }));
}

/** Hold points that measure what nobody can, or in a unit that it is not kept in. */
function measuresNothing(operation: Operation): Problem[] {
  return operation.holdPoints.flatMap(({ name, measures, unit }): Problem[] => {
    if (measures === undefined) return [];
    const what = measurable(measures);
    const message = !what
      ? `Hold point “${name}” of “${operation.name}” measures “${measures}”, which is nothing that is measured.`
      : sameUnit(unit ?? "", what.unit)
        ? null
        : `Hold point “${name}” of “${operation.name}” is read in “${unit ?? ""}”: ${what.name.toLowerCase()} is kept ${what.unit ? `in ${what.unit}` : "as a plain number"}.`;
    return message === null ? [] : [{ kind: "setting", message, names: [operation.key], part: "operations" }];
  });
}
