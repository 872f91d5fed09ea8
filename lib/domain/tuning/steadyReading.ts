import type { Region, SettingKey, SettingValues } from "./targetTypes";

/** One opening as a log held it; `rpm` null where the log has no engine speed, `seconds` 0 where nothing says how long. */
export interface HeldOpening {
  readonly throttle: number;
  readonly rpm: number | null;
  readonly seconds: number;
}

/** What counts as a steady reading of a region: grip opening, share of rated speed, seconds held. */
export interface Deciding {
  readonly throttle: readonly [low: number, high: number];
  /** Share of rated speed; null: any, and the log need not have it. */
  readonly speed: readonly [low: number, high: number] | null;
  readonly seconds: number;
}

/**
 * The one-step limit of a region's setting is lifted by a steady reading like this, and by nothing else.
 * Full load means nearly full grip at an engine speed that loads it. Source: judgement after common practice.
 */
export const DECIDING: Readonly<Record<Region, Deciding>> = {
  pilot: { throttle: [0, 0.08], speed: null, seconds: 2 },
  straight: { throttle: [0.1, 0.35], speed: null, seconds: 2 },
  taper: { throttle: [0.35, 0.65], speed: null, seconds: 2 },
  main: { throttle: [0.9, 1], speed: [0.6, 1.15], seconds: 2 },
};

/** What counts as a reading at full load, in a sentence for screens. */
export const FULL_LOAD_WORDS =
  "at least 90 % throttle, 60 to 115 % of rated speed, held for 2 seconds, on this bike as it is set now";

/** Whether an opening was held as a reading of the region must be. */
export function decides(region: Region, held: HeldOpening, ratedRpm: number): boolean {
  const { throttle, speed, seconds } = DECIDING[region];
  if (held.throttle < throttle[0] || held.throttle > throttle[1] || held.seconds < seconds) return false;
  if (speed === null) return true;
  return held.rpm !== null && held.rpm >= speed[0] * ratedRpm && held.rpm <= speed[1] * ratedRpm;
}

const EVERYWHERE: readonly SettingKey[] = [
  "mainJet",
  "clipPosition",
  "needleSeatMm",
  "slideCutawayMm",
  "floatHeightMm",
  "springLengthMm",
  "springCoils",
  "airboxOpeningMm",
  "snorkelFitted",
  "headerWeldMm",
];
const IDLE: readonly SettingKey[] = ["pilotJet", "mixtureScrewTurns"];

/** Whether a reading made with `ridden` still speaks of `now`: every setting that acts on the region is the same, and known on both sides or on neither. */
export function stillHolds(region: Region, ridden: SettingValues, now: SettingValues): boolean {
  const acting = region === "main" || region === "taper" ? EVERYWHERE : [...EVERYWHERE, ...IDLE];
  return acting.every((key) => ridden[key] === now[key]);
}
