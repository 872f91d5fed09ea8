import { DESCRIBED_NAMES } from "../tuning/describedParts";
import { type ChangedKind, changesOfParts, type PartChange, SETTINGS_OF } from "../tuning/partChange";
import type { SettingChange } from "../tuning/settingChange";
import type { Option } from "./recipe";

/** What an operation names among what it makes where it fits a part that no setting describes, by the part's kind. */
export const MADE_PARTS: readonly ChangedKind[] = ["filter", "silencer"];

/** An option's setting changes with those that follow from the parts that it leaves. */
export function changesOf(option: Pick<Option, "changes" | "leaves">): readonly SettingChange[] {
  return option.leaves ? [...option.changes, ...changesOfParts(option.leaves)] : option.changes;
}

/** The two options that leave a kind of part differently, with that part's name, if any do. */
export function partConflict(
  options: readonly Option[],
): { readonly setting: string; readonly options: [string, string] } | null {
  const left = new Map<string, { readonly option: string; readonly how: string }>();
  for (const option of options)
    for (const part of option.leaves ?? []) {
      const how = JSON.stringify(part);
      const before = left.get(part.kind);
      if (before && before.how !== how)
        return {
          setting: `the ${DESCRIBED_NAMES[part.kind].toLowerCase()}`,
          options: [before.option, option.key],
        };
      left.set(part.kind, { option: option.key, how });
    }
  return null;
}

/** The parts that options leave, one of a kind. */
export function partsLeftBy(options: readonly Option[]): readonly PartChange[] {
  const byKind = new Map(options.flatMap((option) => (option.leaves ?? []).map((part) => [part.kind, part])));
  return [...byKind.values()];
}

/** True where a step that makes these makes a part of this kind. */
export function makesPart(makes: readonly string[], kind: ChangedKind): boolean {
  return makes.includes(kind) || SETTINGS_OF[kind].some((setting) => makes.includes(setting));
}
