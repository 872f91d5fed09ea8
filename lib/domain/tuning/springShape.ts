import type { Reason } from "../reason";
import { Refusal, within } from "../refusal";
import { springRateNPerM } from "./spring";
import { fitsItsPlace, type SlideSpring } from "./springCut";

/** All that may be known of one spring; what is missing follows from the rest where it can. */
export interface SpringShape {
  readonly wireMm?: number | undefined;
  /** Mean coil diameter. */
  readonly coilMm?: number | undefined;
  readonly coils?: number | undefined;
  readonly freeMm: number;
  /** As measured; absent: from wire and coil. */
  readonly rateNPerM?: number | undefined;
  /** Length with the slide shut. */
  readonly installedMm: number;
  readonly shearGPa?: number | undefined;
}

/** A measured rate and one from wire and coil may differ by this much: the wire enters by its fourth power. Judgement. */
const RATE_APART = 0.25;

/**
 * A spring from its shape, with what its rate follows from. Refuses contradictions by name: coils that do not go into the free
 * length, a rate that wire and coil deny, a spring shorter than its place. Source: EN 13906-1.
 */
export function shapedSpring(shape: SpringShape): SlideSpring & { readonly because: readonly Reason[] } {
  const freeMm = within("free length", shape.freeMm, 5, 400, "mm");
  const installedMm = within("length with the slide shut", shape.installedMm, 5, 400, "mm");
  const { wireMm, coilMm, coils } = shape;
  if (wireMm !== undefined && coils !== undefined && wireMm * coils >= freeMm)
    throw new Refusal(
      `${coils} coils of ${wireMm} mm wire are ${(wireMm * coils).toFixed(0)} mm long when pressed solid, more than the free length of ${freeMm} mm.`,
      "Count the coils again, or measure the wire.",
      { coils: "More than fit into the free length." },
    );
  const reckoned =
    wireMm !== undefined && coilMm !== undefined && coils !== undefined
      ? springRateNPerM(wireMm / 1000, coilMm / 1000, coils, (shape.shearGPa ?? 81.5) * 1e9)
      : undefined;
  const rate = shape.rateNPerM ?? reckoned;
  if (rate === undefined) {
    const missing = wireMm === undefined ? "wire" : coilMm === undefined ? "coil" : "coils";
    throw new Refusal(
      "The spring's rate is not known.",
      "Enter wire, mean coil diameter and coils, or the rate as measured.",
      { [missing]: "Enter this, or the rate." },
    );
  }
  within("spring rate", rate, 1, 10_000, "N/m");
  if (shape.rateNPerM !== undefined && reckoned !== undefined && Math.abs(rate / reckoned - 1) > RATE_APART)
    throw new Refusal(
      `The rate of ${rate.toFixed(0)} N/m contradicts wire, coil and coils, which make ${reckoned.toFixed(0)} N/m.`,
      "Measure the wire again, or leave the rate or the wire out.",
      { rate: "Contradicts wire and coils." },
    );
  const spring = fitsItsPlace({ rateNPerM: rate, freeM: freeMm / 1000, coils }, installedMm / 1000);
  return {
    ...spring,
    because: [
      shape.rateNPerM === undefined
        ? {
            fact: `Wire ${wireMm} mm, coil ${coilMm} mm, ${coils} coils`,
            from: "EN 13906-1: G d⁴ / (8 D³ N)",
            effect: `${rate.toFixed(0)} N/m`,
          }
        : { fact: "Rate as measured", from: "entered", effect: `${rate.toFixed(0)} N/m` },
    ],
  };
}
