import type { Reason } from "../reason";
import type { Correction } from "./rideTypes";
import { type SettingDef, settingDef } from "./settings";
import type { Lever } from "./symptomTable";
import type { CarburettorType, SettingValues } from "./targetTypes";

/** What is fitted on the ride. `accepted`: settings that were last measured or accepted; steps leaner count from there. */
export interface RideSheet {
  readonly settings: SettingValues;
  readonly accepted?: SettingValues | undefined;
  readonly carburettorType?: CarburettorType | undefined;
}

/** One step of a lever up (1) or down (-1) from what is fitted; null outside the setting's range. */
export function correctionBy(
  lever: Lever,
  sense: 1 | -1,
  score: number,
  because: readonly Reason[],
  sheet: RideSheet,
): Correction | null {
  const def = settingDef(lever.key);
  if (!def) return null;
  const from = sheet.settings[lever.key] ?? null;
  const to = from === null ? null : Number((from + sense * lever.step).toFixed(4));
  if (to !== null && (to < def.low || to > def.high)) return null;
  const leaner = lever.richer !== 0 && sense !== lever.richer;
  const measure = leaner ? measureFirst(lever, def, to, sheet) : "";
  return {
    setting: lever.key,
    from,
    to,
    unit: def.unit,
    direction: lever.richer === 0 ? (sense > 0 ? "up" : "down") : leaner ? "leaner" : "richer",
    score,
    because,
    firmness: "starting point",
    ...(measure ? { needsMeasurement: measure } : {}),
  };
}

/** What to measure before going leaner: always for the main jet, elsewhere beyond one step from the accepted value. */
function measureFirst(lever: Lever, def: SettingDef, to: number | null, sheet: RideSheet): string {
  if (lever.key === "mainJet") return "Measure lambda at full load before a leaner main jet.";
  const accepted = sheet.accepted?.[lever.key];
  if (to === null || accepted === undefined) return "";
  return Math.abs(to - accepted) > lever.step + 1e-9 && Math.sign(to - accepted) !== lever.richer
    ? `${def.name} would be more than one step leaner than the accepted ${accepted}: measure lambda there first.`
    : "";
}
