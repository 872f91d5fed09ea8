import { Refusal, within } from "../refusal";
import type { NeedleShape } from "./targetTypes";

/** No needle is thinner than this at its tip (mm). Source: judgement. */
const THINNEST = 0.2;

/**
 * Needle diameter (mm) in the plane of the needle jet when the needle is `raisedMm` above the closed slide:
 * straight part, then each taper falls by 2 dx tan(angle/2); below the last taper it stays. Refuses tapers that leave nothing. Source: geometry.
 */
export function needleDiameterMm(needle: NeedleShape, raisedMm: number): number {
  let left = within("needle height", raisedMm, -20, 120, "mm") - needle.straightLiftMm;
  let d = within("needle diameter", needle.straightMm, 0.5, 6, "mm");
  for (const taper of needle.tapers) {
    if (left <= 0) break;
    d -= 2 * Math.min(left, taper.lengthMm) * Math.tan((taper.includedAngleDeg * Math.PI) / 360);
    left -= taper.lengthMm;
  }
  if (d < THINNEST)
    throw new Refusal(
      `The needle's tapers leave ${d.toFixed(2)} mm at ${raisedMm.toFixed(1)} mm of lift.`,
      "Measure the tapers' lengths and angles again.",
    );
  return d;
}

/** Open ring (mm2) between needle jet and needle: pi/4 (D^2 - d^2). Refuses a needle that does not pass. Source: geometry. */
export function annulusMm2(needleJetMm: number, needleMm: number): number {
  const jet = within("needle jet", needleJetMm, 1, 6, "mm");
  within("needle diameter", needleMm, 0.1, 7, "mm");
  if (needleMm >= jet)
    throw new Refusal(
      `A ${needleMm} mm needle does not pass a ${jet} mm needle jet.`,
      "Measure the needle's straight part and the needle jet again.",
    );
  return (Math.PI / 4) * (jet * jet - needleMm * needleMm);
}

/** How far (mm) a clip position and seat height raise the needle above where its shape was described. Clip 1 is the top groove; a needle without grooves has no clip. */
export function needleRaiseMm(needle: NeedleShape, clip: number, seatChangeMm: number): number {
  if (needle.clips === 0) return within("needle seat change", seatChangeMm, -10, 10, "mm");
  const step = within("distance between clip grooves", needle.clipStepMm, 0.1, 5, "mm");
  const grooves = within("clip grooves raised", clip - needle.clipAt, -10, 10);
  return grooves * step + within("needle seat change", seatChangeMm, -10, 10, "mm");
}

/** The clip's groove. Refuses one that the needle has not. */
export function grooveOf(needle: NeedleShape, clip: number): number {
  if (needle.clips === 0)
    throw new Refusal(
      `The needle has no grooves; a clip is said to be in groove ${clip}.`,
      "Take the clip position off the sheet and record the shims below the needle's shoulder.",
      { clipPosition: "This needle has no grooves." },
    );
  if (!Number.isInteger(clip) || clip < 1 || clip > needle.clips)
    throw new Refusal(
      `The needle has ${needle.clips} clip grooves; the clip is said to be in ${clip}.`,
      "Count the grooves from the top again, or correct them on the model card.",
      { clipPosition: `1 to ${needle.clips}.` },
    );
  return clip;
}
