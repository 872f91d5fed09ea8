import { Refusal } from "../refusal";
import type { NeedleWork } from "../tuning/needleWork";
import type { PartChange } from "../tuning/partChange";
import type { SettingChange } from "../tuning/settingChange";
import { needleConflict, needleWorkOf } from "./needleOption";
import { changesOf, partConflict, partsLeftBy } from "./partOption";
import type { Operation, Option, PartNeed, Recipe } from "./recipe";
import { madeBy } from "./taking";

export interface Needs {
  /** Each operation once, in the recipe's order, with the settings that it makes for these options. */
  readonly operations: readonly Operation[];
  /** Options' and operations' parts, one entry for each part or jet, quantities added up. */
  readonly parts: readonly PartNeed[];
  readonly changes: readonly SettingChange[];
  /** What is done to the needle; absent: nothing. */
  readonly needle?: NeedleWork;
  /** Parts that are left otherwise, one of a kind; absent: none. Their figures stand among the changes. */
  readonly leaves?: readonly PartChange[];
  readonly cautions: readonly string[];
  readonly roadUse: boolean;
}

/**
 * What a set of chosen options takes: work, parts (thousandths of the unit), setting changes, cautions, and whether
 * the road-use acknowledgement is due. An operation that two options share is done once, with its parts once.
 * Refuses unknown options or operations, and two options that put one setting to different values.
 */
export function needs(recipe: Recipe, chosen: readonly string[]): Needs {
  const unknown = chosen.find((key) => !recipe.options.some((option) => option.key === key));
  if (unknown !== undefined)
    throw new Refusal(
      `This package has no option “${unknown}”.`,
      "Choose from the package's present options.",
    );
  const options = recipe.options.filter((option) => chosen.includes(option.key));
  const wanted = new Set(options.flatMap((option) => option.operations));
  const made = madeBy(recipe, options);
  const operations = recipe.operations
    .filter((operation) => wanted.delete(operation.key))
    .map(({ makes: _, ...operation }): Operation => {
      const makes = made.get(operation.key);
      return makes ? { ...operation, makes } : operation;
    });
  for (const key of wanted)
    throw new Refusal(
      `The package names an operation “${key}” that it does not have.`,
      "Correct the package and publish it again.",
    );
  const needle = needleWorkOf(options);
  const leaves = partsLeftBy(options);
  return {
    operations,
    parts: mergeParts([
      ...options.flatMap((option) => option.parts),
      ...operations.flatMap((operation) => operation.parts),
    ]),
    changes: mergeChanges(options),
    ...(needle ? { needle } : {}),
    ...(leaves.length > 0 ? { leaves } : {}),
    cautions: [...new Set(options.flatMap((option) => option.cautions))],
    roadUse: options.some((option) => option.roadUse),
  };
}

/** One entry for each part code, and for each setting and family of jet; quantities added. */
function mergeParts(parts: readonly PartNeed[]): PartNeed[] {
  const merged = new Map<string, PartNeed>();
  for (const part of parts) {
    const key = part.kind === "part" ? `part ${part.code}` : `jet ${part.setting} ${part.family}`;
    const before = merged.get(key)?.quantityMilli ?? 0;
    merged.set(key, { ...part, quantityMilli: before + part.quantityMilli });
  }
  return [...merged.values()];
}

/** The two options that decide one setting differently, if any do. */
export function changeConflict(
  options: readonly Option[],
): { setting: string; options: [string, string] } | null {
  const decided = new Map<string, { option: string; how: string }>();
  for (const option of options) {
    for (const change of changesOf(option)) {
      if (change.change === "add") continue;
      const how = change.change === "set" ? `set ${change.value}` : "computed";
      const before = decided.get(change.setting);
      if (before && before.how !== how)
        return { setting: change.setting, options: [before.option, option.key] };
      decided.set(change.setting, { option: option.key, how });
    }
  }
  const needle = needleConflict(options);
  if (needle) return { setting: "the needle", options: needle };
  return partConflict(options);
}

/** Per setting: what decides it ("set" or "computed"), then what is added on top; a set value takes its additions in. */
function mergeChanges(options: readonly Option[]): SettingChange[] {
  const conflict = changeConflict(options);
  if (conflict) {
    const names = conflict.options.map(
      (key) => `“${options.find((option) => option.key === key)?.name ?? key}”`,
    );
    throw new Refusal(
      `${names.join(" and ")} put ${conflict.setting} to different values.`,
      "Choose one of them.",
    );
  }
  const bySetting = Map.groupBy(options.flatMap(changesOf), (change) => change.setting);
  return [...bySetting].flatMap(([setting, changes]): SettingChange[] => {
    const decided = changes.find((change) => change.change !== "add");
    const additions = changes.filter((change) => change.change === "add");
    const added = additions.reduce((sum, change) => sum + (change.value ?? 0), 0);
    if (decided?.change === "set") return [{ setting, change: "set", value: (decided.value ?? 0) + added }];
    const computed: SettingChange[] = decided ? [{ setting, change: "computed" }] : [];
    return additions.length > 0 ? [...computed, { setting, change: "add", value: added }] : computed;
  });
}
