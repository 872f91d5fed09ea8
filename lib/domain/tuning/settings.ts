/** Every setting a setting sheet can hold, with the unit it is written in on paper. */
export interface SettingDef {
  readonly key: SettingKey;
  readonly name: string;
  readonly unit: string;
  readonly low: number;
  readonly high: number;
  readonly step: number;
  /** Decimals shown. */
  readonly decimals: number;
}

export type SettingKey =
  | "mainJet"
  | "pilotJet"
  | "clipPosition"
  | "needleSeatMm"
  | "needleShimBelowMm"
  | "needleShimAboveMm"
  | "slideCutawayMm"
  | "mixtureScrewTurns"
  | "floatHeightMm"
  | "springLengthMm"
  | "springCoils"
  | "liftHoleCount"
  | "liftHoleMm"
  | "airboxOpeningMm"
  | "snorkelFitted"
  | "headerWeldMm"
  | "idleSpeedRpm";

/** Where a value on a setting sheet comes from. */
export type HowKnown = "measured" | "read" | "computed" | "assumed";

const def = (
  key: SettingKey,
  name: string,
  unit: string,
  low: number,
  high: number,
  step: number,
  decimals: number,
): SettingDef => ({ key, name, unit, low, high, step, decimals });

export const SETTINGS: readonly SettingDef[] = [
  def("mainJet", "Main jet", "", 40, 300, 2.5, 1),
  def("pilotJet", "Pilot jet", "", 10, 100, 2.5, 1),
  def("clipPosition", "Clip position from top", "", 1, 7, 1, 0),
  def("needleSeatMm", "Needle seat height", "mm", 0, 10, 0.05, 2),
  def("needleShimBelowMm", "Shims below the needle's shoulder", "mm", 0, 5, 0.05, 2),
  def("needleShimAboveMm", "Shims above the needle's shoulder", "mm", 0, 5, 0.05, 2),
  def("slideCutawayMm", "Slide cutaway, mechanical slides", "mm", 0, 6, 0.5, 1),
  def("mixtureScrewTurns", "Mixture screw", "turns out", 0, 6, 0.125, 3),
  def("floatHeightMm", "Float height", "mm", 0, 40, 0.5, 1),
  def("springLengthMm", "Slide spring free length", "mm", 20, 250, 1, 0),
  def("springCoils", "Slide spring active coils", "", 2, 60, 0.5, 1),
  def("liftHoleCount", "Slide lift holes", "", 0, 4, 1, 0),
  def("liftHoleMm", "Slide lift hole", "mm", 0.5, 6, 0.1, 1),
  def("airboxOpeningMm", "Airbox opening", "mm", 0, 120, 1, 0),
  def("snorkelFitted", "Snorkel fitted", "", 0, 1, 1, 0),
  def("headerWeldMm", "Header weld left standing", "mm", 0, 10, 0.5, 1),
  def("idleSpeedRpm", "Idle speed", "rpm", 600, 3000, 50, 0),
];

/** The definition of a setting; undefined for a name that is no setting. */
export function settingDef(key: string): SettingDef | undefined {
  return SETTINGS.find((s) => s.key === key);
}
