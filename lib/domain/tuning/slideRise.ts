import { Refusal, within } from "../refusal";
import { type CvSlide, holdingPressurePa } from "./slide";

/**
 * Time (s) in which a constant-vacuum slide rises from `fromM` to `toM` after the depression steps to `depressionPa`:
 * the air above it leaves through lift holes of total area `holesM2`. Inertia is neglected (it adds under a few per cent),
 * so Ad dx/dt = C A sqrt(2 p(x) / rho) with p falling evenly as the spring takes up, which integrates in closed form.
 * Source: continuity and statics. Throws OutOfRange; refuses a step that does not reach `toM`.
 */
export function slideRiseS(
  slide: CvSlide,
  step: { readonly fromM: number; readonly toM: number; readonly depressionPa: number },
  holesM2: number,
  densityKgM3: number,
  holeDischarge = 0.6,
): number {
  within("lift at the start", step.fromM, 0, slide.liftMaxM, "m");
  within("lift", step.toM, step.fromM, slide.liftMaxM, "m");
  within("depression", step.depressionPa, 0, 100_000, "Pa");
  within("air density", densityKgM3, 0.2, 2, "kg/m3");
  within("discharge coefficient of the holes", holeDischarge, 0.3, 1);
  within("lift-hole area", holesM2, 1e-8, 1e-3, "m2");
  const start = step.depressionPa - holdingPressurePa(slide, step.fromM);
  const end = step.depressionPa - holdingPressurePa(slide, step.toM);
  if (end <= 0)
    throw new Refusal(
      "The depression does not lift the slide that far.",
      "Take a smaller lift or more depression.",
    );
  const speed = (holeDischarge * holesM2 * Math.sqrt(2 / densityKgM3)) / slide.diaphragmM2;
  const gradient = (start - end) / Math.max(1e-12, step.toM - step.fromM);
  if (gradient < 1e-6) return (step.toM - step.fromM) / (speed * Math.sqrt(start));
  return (2 * (Math.sqrt(start) - Math.sqrt(end))) / (speed * gradient);
}
