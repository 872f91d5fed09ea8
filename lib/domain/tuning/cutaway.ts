/** A slide's cutaway acts most at this share of lift, and is nothing at twice it. Source: common practice (an eighth to a quarter). */
const MOST_AT = 0.18;
/** Log richness that half a millimetre more takes away where it acts most. Source: judgement. */
const PER_HALF_MM = -0.03;

/**
 * Log richness of a mechanical slide's cutaway against the reference's, at a share of lift: a higher cutaway lets more air in
 * under a slide that is little open, so it is leaner there and the same at large openings. Source: common practice, judgement.
 */
export function cutawayRichness(liftShare: number, cutMm: number, referenceMm: number): number {
  const near = Math.max(0, 1 - Math.abs(liftShare - MOST_AT) / MOST_AT);
  return (PER_HALF_MM * near * (cutMm - referenceMm)) / 0.5;
}
