import { addReading, type Information, integrateOut, nothingKnown } from "./information";
import { byInstrument, type CalibrationPoint, type Lesson } from "./lesson";
import { REGIONS } from "./regions";
import * as spread from "./spreads";

/** How much a point counts, 0 to 1, beside its sigma. */
export type Counts = (p: CalibrationPoint, lesson: Lesson) => number;

/**
 * What one lesson says of the richness of its bike in the four regions and of its instrument's bias, in that order; its session
 * is integrated out. Without an instrument the richness is as felt.
 */
export function heardIn(lesson: Lesson, counts: Counts): Information {
  const N = REGIONS.length;
  const all = nothingKnown(N + 2);
  addReading(all, [...REGIONS.map(() => 0), 0, 1], 0, sessionSigma(lesson) ** -2);
  for (const p of lesson.points) {
    const weight = p.steady ? counts(p, lesson) : 0;
    if (weight > 0)
      addReading(all, [...spokenOf(p), byInstrument(p) ? 1 : 0, 1], p.error, weight * ownNoise(p) ** -2);
  }
  return integrateOut(all, N + 1);
}

/** A ride without an instrument says nothing of the idle circuit, which is set by ear on the day. Source: common practice. */
const spokenOf = (p: CalibrationPoint): readonly number[] =>
  REGIONS.map((r) => (r === "pilot" && p.kind === "accepted" ? 0 : p.weights[r]));

/** Noise of one point that it shares with no other. */
export function ownNoise(p: CalibrationPoint): number {
  if (!byInstrument(p)) return Math.max(p.sigma, spread.FEEL_NOISE.sigma);
  return Math.sqrt(Math.max(spread.OPENING_NOISE.sigma ** 2, p.sigma ** 2 - spread.BIAS_IN_READING ** 2));
}

/** What all points of a lesson are off by together: its session, and what is uncertain of the way from its settings to the reference. */
export function sessionSigma(lesson: Lesson): number {
  const own = lesson.points.some(byInstrument) ? spread.SESSION_BIAS.sigma : spread.FEEL_SESSION.sigma;
  const changed = lesson.points.reduce((sum, p) => sum + Math.abs(p.changed), 0) / lesson.points.length;
  return Math.hypot(own, spread.CHANGE_SHARE.sigma * changed);
}
