import type { Reason } from "../reason";
import { type Correctable, stepThatCanBeMade } from "./correctionStep";
import type { Correction } from "./rideTypes";
import { type SettingDef, settingDef } from "./settings";
import type { Lever } from "./symptomTable";
import type { CarburettorType, SettingValues } from "./targetTypes";

/** What is fitted on the ride. `accepted`: settings that were last measured or accepted; steps leaner count from there. */
export interface RideSheet extends Correctable {
  readonly settings: SettingValues;
  readonly accepted?: SettingValues | undefined;
  readonly carburettorType?: CarburettorType | undefined;
}

/** One step of a lever up (1) or down (-1) from what is fitted; null where this bike cannot be changed so. */
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
  const step = from === null ? null : stepThatCanBeMade(lever, sense, from, sheet);
  if (from !== null && step === null) return null;
  const to = step?.to ?? null;
  if (to !== null && (to < def.low || to > def.high)) return null;
  const leaner = lever.richer !== 0 && sense !== lever.richer;
  const measure = leaner ? measureFirst(lever, def, to, sheet) : "";
  const before = to === null ? undefined : sheet.tried?.find((t) => t.setting === lever.key && t.to === to);
  return {
    setting: lever.key,
    from,
    to,
    unit: def.unit,
    direction: lever.richer === 0 ? (sense > 0 ? "up" : "down") : leaner ? "leaner" : "richer",
    score: before ? score * TRIED_COUNTS : score,
    because: [
      ...because,
      ...(step?.because ?? []),
      ...(before ? [{ fact: before.what, from: "tried on this bike", effect: "counts less" }] : []),
    ],
    firmness: "starting point",
    ...(measure ? { needsMeasurement: measure } : {}),
  };
}

/** What was tried on this bike and not kept counts this much. Source: judgement. */
const TRIED_COUNTS = 0.4;

/** What to measure before going leaner: always for the main jet, elsewhere beyond one step from the accepted value. */
function measureFirst(lever: Lever, def: SettingDef, to: number | null, sheet: RideSheet): string {
  if (lever.key === "mainJet") return "Measure lambda at full load before a leaner main jet.";
  const accepted = sheet.accepted?.[lever.key];
  if (to === null || accepted === undefined) return "";
  return Math.abs(to - accepted) > lever.step + 1e-9 && Math.sign(to - accepted) !== lever.richer
    ? `${def.name} would be more than one step leaner than the accepted ${accepted}: measure lambda there first.`
    : "";
}
