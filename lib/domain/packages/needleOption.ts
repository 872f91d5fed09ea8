import { Refusal } from "../refusal";
import type { NeedleWork } from "../tuning/needleWork";
import { changesOf, MADE_PARTS } from "./partOption";
import type { Problem } from "./problem";
import type { Option, Recipe } from "./recipe";

/** What an operation names among what it makes where it changes the needle itself; every other name is a setting's. */
export const MAKES_NEEDLE = "needle";

/** All that an option changes, by name: settings, the needle itself, and parts that no setting describes. */
export function changedBy(option: Option): readonly string[] {
  return [
    ...changesOf(option).map((change) => change.setting),
    ...(option.needle ? [MAKES_NEEDLE] : []),
    ...(option.leaves ?? []).map((part) => part.kind).filter((kind) => MADE_PARTS.includes(kind)),
  ];
}

/** The two options that change the needle differently, if any do. */
export function needleConflict(options: readonly Option[]): [string, string] | null {
  const [first, ...rest] = options.filter((option) => option.needle);
  const other = rest.find((option) => JSON.stringify(option.needle) !== JSON.stringify(first?.needle));
  return first && other ? [first.key, other.key] : null;
}

/** What chosen options do to the needle. Refuses two that do different things to it. */
export function needleWorkOf(options: readonly Option[]): NeedleWork | undefined {
  const conflict = needleConflict(options);
  if (conflict) {
    const names = conflict.map((key) => `“${options.find((option) => option.key === key)?.name ?? key}”`);
    throw new Refusal(`${names.join(" and ")} change the needle differently.`, "Choose one of them.");
  }
  return options.find((option) => option.needle)?.needle;
}

/** Needle work that cannot be done as it is written. */
export function brokenNeedles(recipe: Recipe): Problem[] {
  return recipe.options.flatMap((option): Problem[] => {
    const say = (message: string): Problem[] => [
      {
        kind: "setting",
        message: `Option “${option.name}” ${message}`,
        names: [option.key],
        part: "options",
      },
    ];
    const { needle } = option;
    if (!needle) return [];
    if (needle.kind === "exchange")
      return option.parts.some((part) => part.kind === "part" && part.code === needle.code)
        ? []
        : say(`fits the needle ${needle.code}, which is not among its parts.`);
    if (needle.kind === "reduce")
      return needle.toMm > needle.fromMm ? [] : say("takes the needle down over no length.");
    const falls = needle.stations.every((s, i) => i === 0 || s.atMm > (needle.stations[i - 1]?.atMm ?? 0));
    return falls && needle.stations.length > 1
      ? []
      : say("needs two stations of the needle or more, going down.");
  });
}
