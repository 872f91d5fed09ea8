import type { Observation, RideCondition, RideSign, ThrottlePosition } from "./rideTypes";
import type { SettingKey } from "./settings";

/** A setting that a symptom can point at: step of one correction, richer way round, ease of changing it (1 is easiest). */
export interface Lever {
  readonly key: SettingKey;
  readonly step: number;
  /** +1: a larger value is richer; -1: a larger value is leaner; 0: it acts on how quickly the slide rises. */
  readonly richer: 1 | -1 | 0;
  readonly ease: number;
}

/** Source: common practice for steps and senses, judgement for ease. */
export const LEVERS: readonly Lever[] = [
  { key: "mainJet", step: 2.5, richer: 1, ease: 0.8 },
  { key: "pilotJet", step: 2.5, richer: 1, ease: 0.6 },
  { key: "clipPosition", step: 1, richer: 1, ease: 0.8 },
  { key: "needleShimBelowMm", step: 0.25, richer: 1, ease: 0.8 },
  { key: "mixtureScrewTurns", step: 0.25, richer: 1, ease: 1 },
  { key: "floatHeightMm", step: 0.5, richer: -1, ease: 0.55 },
  { key: "springLengthMm", step: 2, richer: 0, ease: 0.5 },
  { key: "idleSpeedRpm", step: 50, richer: 0, ease: 1 },
];

type Pull = Readonly<Partial<Record<SettingKey, number>>>;

/** How strongly a steady symptom at a grip opening points at each setting. Source: judgement after common practice. */
export const STEADY: Readonly<Record<ThrottlePosition, Pull>> = {
  closed: { mixtureScrewTurns: 0.85, pilotJet: 0.7, floatHeightMm: 0.15 },
  eighth: { mixtureScrewTurns: 0.6, pilotJet: 0.6, clipPosition: 0.35, floatHeightMm: 0.15 },
  quarter: { clipPosition: 0.8, pilotJet: 0.3, mixtureScrewTurns: 0.2, mainJet: 0.02, floatHeightMm: 0.15 },
  half: { clipPosition: 0.9, mainJet: 0.2, floatHeightMm: 0.15 },
  threeQuarter: { mainJet: 0.65, clipPosition: 0.5, floatHeightMm: 0.15 },
  full: { mainJet: 0.95, clipPosition: 0.1, floatHeightMm: 0.2 },
};

/** What other conditions point at, whatever the opening; a missing condition uses STEADY. Source: judgement. */
export const SPECIAL: Readonly<Partial<Record<RideCondition, Pull>>> = {
  idle: { mixtureScrewTurns: 0.9, pilotJet: 0.6, idleSpeedRpm: 0.2, floatHeightMm: 0.15 },
  decelerating: { mixtureScrewTurns: 0.7, pilotJet: 0.7 },
  starting: { pilotJet: 0.5, mixtureScrewTurns: 0.4, floatHeightMm: 0.5 },
};

/** A snap adds this on constant-vacuum slides: too quick a rise is a lean snap. Source: common practice. */
const SNAP: Pull = { springLengthMm: 0.7 };

/** Likelihood that a sign means too lean, and too rich. Source: judgement. */
export const MEANS: Readonly<
  Record<Exclude<RideSign, "good">, { readonly lean: number; readonly rich: number }>
> = {
  lean: { lean: 0.9, rich: 0.05 },
  rich: { lean: 0.05, rich: 0.9 },
  hesitates: { lean: 0.65, rich: 0.3 },
  surges: { lean: 0.8, rich: 0.15 },
  floods: { lean: 0.02, rich: 0.85 },
};

/** A cold engine is partly on its enrichener and looks lean: what it shows counts less. Source: common practice. */
export const COLD_COUNTS = 0.4;

/** How strongly an observation points at a setting, 0 to 1. A snap points at the slide's rise, and less at what is steady there. */
export function pullOf(setting: SettingKey, { condition, throttle }: Observation): number {
  // A needle is raised alike by its clip and by its shims.
  const key = setting === "needleShimBelowMm" ? "clipPosition" : setting;
  if (condition === "snap") return SNAP[key] ?? 0.7 * (STEADY[throttle][key] ?? 0);
  return (SPECIAL[condition] ?? STEADY[throttle])[key] ?? 0;
}
