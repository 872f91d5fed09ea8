import { type SettingDef, settingDef } from "../tuning/settings";
import type { SheetValueOf } from "./fitted";
import { shownHeights } from "./needleHeights";

/** One setting to make on one carburettor. */
export interface SettingToMake {
  readonly def: SettingDef;
  readonly carburettor: number;
  /** What is fitted as found; null where nobody knows. */
  readonly from: number | null;
  /** The target; null where it is not settled yet. */
  readonly to: number | null;
}

type Value = SheetValueOf & { readonly value: number };

/**
 * The settings that a step makes, with what was found and what to make: one entry for each carburettor that either sheet names. A
 * setting of which neither sheet knows anything is still named, so that its step asks for it.
 */
export function settingsToMake(
  makes: readonly string[],
  found: readonly Value[],
  target: readonly Value[],
): SettingToMake[] {
  const known = new Set([...found, ...target].map((v) => v.setting));
  return shownHeights(makes, known).flatMap((setting) => {
    const def = settingDef(setting);
    if (!def) return [];
    const of = (values: readonly Value[], carburettor: number) =>
      values.find((v) => v.setting === setting && v.carburettor === carburettor)?.value ?? null;
    const aimed = target.filter((v) => v.setting === setting);
    const said = aimed.length > 0 ? aimed : found.filter((v) => v.setting === setting);
    const carburettors = [...new Set(said.map((v) => v.carburettor))].sort();
    return (carburettors.length > 0 ? carburettors : [1]).map((carburettor) => ({
      def,
      carburettor,
      from: of(found, carburettor),
      to: of(target, carburettor),
    }));
  });
}
