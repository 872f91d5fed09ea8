import { SETTINGS, type SettingKey } from "./settings";

/** Something on a bike that a gauge can read: a setting, a part that wears, or how alike its carburettors are. */
export interface Measurable {
  readonly key: string;
  readonly name: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly decimals: number;
  /** Whether each carburettor has its own, the engine has one, or all carburettors share one. */
  readonly of: "carburettor" | "engine" | "all carburettors";
  readonly kind: "setting" | "wear" | "balance";
  /** True where the reading is taken at a distance along the part. */
  readonly atStation?: true;
}

export type WearMeasureKey =
  | "needleMm"
  | "needleJetBoreMm"
  | "needleJetOvalityMm"
  | "guidePlayMm"
  | "diaphragmLights";

type Row = readonly [
  key: WearMeasureKey,
  name: string,
  unit: string,
  low: number,
  high: number,
  step: number,
  decimals: number,
];

/** Limits: judgement, wide enough for worn parts of road and trail motorcycles. */
const WEAR: readonly Row[] = [
  ["needleMm", "Needle diameter", "mm", 0.2, 6, 0.005, 3],
  ["needleJetBoreMm", "Needle jet bore", "mm", 1, 6, 0.005, 3],
  ["needleJetOvalityMm", "Needle jet out of round", "mm", 0, 1, 0.005, 3],
  ["guidePlayMm", "Slide guide play", "mm", 0, 3, 0.05, 2],
  ["diaphragmLights", "Diaphragm held to the light, points of light", "", 0, 50, 1, 0],
];

const SHARED: Partial<Record<SettingKey, Measurable["of"]>> = {
  idleSpeedRpm: "engine",
  airboxOpeningMm: "all carburettors",
  snorkelFitted: "all carburettors",
};

/** The greatest difference of vacuum between carburettors that are read at once. Limits: judgement. */
const BALANCE: Measurable = {
  key: "vacuumSpreadKpa",
  name: "Vacuum, greatest difference between carburettors",
  unit: "kPa",
  low: 0,
  high: 60,
  step: 0.1,
  decimals: 1,
  of: "engine",
  kind: "balance",
};

/** What a hold point may measure: every setting, then the parts whose wear is read, then the balance. */
export const MEASURABLES: readonly Measurable[] = [
  ...SETTINGS.map((def) => ({ ...def, of: SHARED[def.key] ?? "carburettor", kind: "setting" }) as const),
  ...WEAR.map(
    ([key, name, unit, low, high, step, decimals]): Measurable => ({
      key,
      name,
      unit,
      low,
      high,
      step,
      decimals,
      of: "carburettor",
      kind: "wear",
      ...(key === "needleMm" ? { atStation: true } : {}),
    }),
  ),
  BALANCE,
];

/** The definition of something that can be measured; undefined for a name that is none. */
export function measurable(key: string): Measurable | undefined {
  return MEASURABLES.find((one) => one.key === key);
}

/** Its name, with the station where there is one: “Needle diameter, 32 mm below the shoulder”. */
export function measuredName(key: string, station: number | null): string {
  const def = measurable(key);
  if (!def?.atStation) return def?.name ?? key;
  return `${def.name}, ${station === null ? "straight part" : `${station} mm below the shoulder`}`;
}
