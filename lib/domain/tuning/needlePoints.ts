import { Refusal, within } from "../refusal";
import type { NeedleShape } from "./cardTypes";
import { needleDiameterMm } from "./needle";

/** A needle's diameter at a distance below its shoulder, both mm. The shoulder is what the clip or the lowest shim bears on. */
export interface NeedlePoint {
  readonly atMm: number;
  readonly diameterMm: number;
}

/** Two diameters nearer than this are the same to a workshop's micrometer, mm. Source: judgement. */
const SAME_MM = 0.005;

/** The shoulder's distance to the plane of the needle jet, slide shut, mm. Refuses a needle of which nobody measured it. */
export function demandPlane(needle: NeedleShape): number {
  if (needle.planeMm === undefined)
    throw new Refusal(
      "How far the needle jet lies below the needle's shoulder is not known, so work along the needle cannot be placed.",
      "Measure it with the slide shut, or the length of the delivered needle's straight part, and record it.",
    );
  return needle.planeMm;
}

/** The corners of a needle's profile by distance below the shoulder: cones between them, as thick as the first above it. Source: geometry. */
export function cornersOf(needle: NeedleShape): readonly NeedlePoint[] {
  const plane = demandPlane(needle);
  let lift = needle.straightLiftMm;
  const lifts = [lift, ...needle.tapers.map((taper) => (lift += taper.lengthMm))];
  return lifts.map((at) => ({ atMm: at + plane, diameterMm: needleDiameterMm(needle, at) }));
}

/**
 * A needle through points below its shoulder: cones between them, straight above the first and below the last. Clip and grooves
 * are those of `like`. Refuses fewer than two points and points that do not go down. Source: geometry.
 */
export function needleThroughPoints(
  points: readonly NeedlePoint[],
  planeMm: number,
  like: Pick<NeedleShape, "clipAt" | "clipStepMm" | "clips" | "groovesAssumed">,
): NeedleShape {
  const [first, ...rest] = points;
  if (!first || rest.length === 0)
    throw new Refusal(
      "A needle wants two measured diameters or more.",
      "Measure it at two stations at least.",
    );
  let before = first;
  const tapers = rest.map((point) => {
    const lengthMm = within("distance between stations", point.atMm - before.atMm, 0.05, 120, "mm");
    const includedAngleDeg =
      (2 * Math.atan((before.diameterMm - point.diameterMm) / (2 * lengthMm)) * 180) / Math.PI;
    before = point;
    return { lengthMm, includedAngleDeg };
  });
  return {
    straightMm: within("needle diameter", first.diameterMm, 0.5, 6, "mm"),
    straightLiftMm: first.atMm - planeMm,
    clipAt: like.clipAt,
    clipStepMm: like.clipStepMm,
    clips: like.clips,
    ...(like.groovesAssumed ? { groovesAssumed: true } : {}),
    planeMm,
    tapers,
  };
}

/** Diameter (mm) at a distance below the shoulder. */
export function diameterBelow(needle: NeedleShape, atMm: number): number {
  return needleDiameterMm(needle, atMm - demandPlane(needle));
}

/**
 * Where a ring gauge of a diameter, slid on from the tip, stops: mm below the shoulder. Null where it passes the whole needle or
 * does not go on at all. Source: geometry.
 */
export function gaugeStopMm(needle: NeedleShape, gaugeMm: number): number | null {
  const corners = cornersOf(needle).toReversed();
  const [tip] = corners;
  if (!tip || tip.diameterMm >= gaugeMm) return null;
  for (const [i, lower] of corners.entries()) {
    const upper = corners[i + 1];
    if (!upper || upper.diameterMm < gaugeMm) continue;
    const share = (gaugeMm - lower.diameterMm) / (upper.diameterMm - lower.diameterMm);
    return lower.atMm + share * (upper.atMm - lower.atMm);
  }
  return null;
}

/** How two needles differ in their jet, over the lifts that a slide has. */
export type NeedleDifference = "the same" | "slimmer" | "thicker" | "both";

/** Whether a needle is slimmer or thicker than another at the lifts from 0 to `liftMm`, beyond what a micrometer tells, or `sameMm`. Source: geometry. */
export function comparedNeedles(
  needle: NeedleShape,
  other: NeedleShape,
  liftMm = 40,
  sameMm = SAME_MM,
): NeedleDifference {
  let [slimmer, thicker] = [false, false];
  for (let lift = 0; lift <= liftMm; lift += 0.25) {
    const difference = needleDiameterMm(needle, lift) - needleDiameterMm(other, lift);
    slimmer ||= difference < -sameMm;
    thicker ||= difference > sameMm;
  }
  return slimmer ? (thicker ? "both" : "slimmer") : thicker ? "thicker" : "the same";
}
