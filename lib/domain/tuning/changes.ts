import type { Reason } from "../reason";
import { Refusal, within } from "../refusal";
import type { SettingChange } from "./settingChange";
import { type SettingDef, type SettingKey, settingDef } from "./settings";
import type { KnownSettings, SettingValues, Warning } from "./targetTypes";

/** As found settings with a package's changes applied: values, what is still to be computed, and why each changed. */
export interface Applied {
  readonly values: SettingValues;
  readonly computed: ReadonlySet<SettingKey>;
  readonly because: Readonly<Partial<Record<SettingKey, readonly Reason[]>>>;
  readonly warnings: readonly Warning[];
}

/** What an unrecorded breathing setting is taken to be: as delivered. Source: judgement. */
const DELIVERED: SettingValues = { airboxOpeningMm: 0, snorkelFitted: 1 };
const COMPUTABLE: ReadonlySet<string> = new Set([
  "mainJet",
  "pilotJet",
  "clipPosition",
  "needleShimBelowMm",
  "slideCutawayMm",
  "mixtureScrewTurns",
  "idleSpeedRpm",
]);

/** Plain values of known settings. */
export function valuesOf(known: KnownSettings): SettingValues {
  return Object.fromEntries(
    Object.entries(known).flatMap(([key, k]) => (k ? [[key, checked(definition(key), k.value)]] : [])),
  );
}

/**
 * Applies setting changes in order. "add" to an unknown value is left out with a warning. Throws Refusal for an unknown
 * setting, a missing value or a setting that cannot be computed; OutOfRange for a result outside the setting's range.
 */
export function applyChanges(found: KnownSettings, changes: readonly SettingChange[]): Applied {
  const values: Partial<Record<SettingKey, number>> = valuesOf(found);
  const computed = new Set<SettingKey>();
  const because: Partial<Record<SettingKey, readonly Reason[]>> = {};
  const warnings: Warning[] = [];
  for (const change of changes) {
    const def = definition(change.setting);
    if (change.change === "computed") {
      if (!COMPUTABLE.has(def.key))
        throw new Refusal(`${def.name} cannot be computed.`, "Let the package set it, or add to it.");
      computed.add(def.key);
      continue;
    }
    if (change.value === undefined)
      throw new Refusal(
        `The package changes ${def.name} without a value.`,
        "Enter the value in the package.",
      );
    const from = values[def.key] ?? DELIVERED[def.key];
    if (change.change === "add" && from === undefined) {
      warnings.push({
        rule: "unknown as found",
        message: `${def.name} is to change by ${change.value}${def.unit && ` ${def.unit}`}, but is not known as found.`,
        remedy: `Record ${def.name} as found.`,
        source: "model",
      });
      continue;
    }
    values[def.key] = checked(def, change.change === "set" ? change.value : (from ?? 0) + change.value);
    computed.delete(def.key);
    because[def.key] = [
      {
        fact: change.change === "set" ? `Set to ${change.value}` : `Changed by ${change.value}`,
        from: "package",
        effect: from === undefined ? "not known as found" : `from ${from}`,
      },
    ];
  }
  return { values, computed, because, warnings };
}

function definition(key: string): SettingDef {
  const def = settingDef(key);
  if (!def) throw new Refusal(`${key} is not a setting.`, "Choose a setting from the list.");
  return def;
}

function checked(def: SettingDef, value: number): number {
  return within(def.name, value, def.low, def.high, def.unit);
}

/** A value put on the setting's own step, inside its range. */
export function onStep(key: SettingKey, value: number): number {
  const def = definition(key);
  const stepped = Math.round(value / def.step) * def.step;
  return Number(Math.min(def.high, Math.max(def.low, stepped)).toFixed(4));
}
