import { within } from "../refusal";
import { jetAreaMm2, seriesArea } from "./jets";
import { annulusMm2, needleDiameterMm, needleRaiseMm } from "./needle";
import type { JetConvention, NeedleShape } from "./targetTypes";

export interface ProfilePoint {
  readonly liftMm: number;
  readonly needleMm: number;
  readonly ringMm2: number;
  /** Ring and main jet in series. */
  readonly circuitMm2: number;
}

export interface MeteringSetup {
  readonly needle: NeedleShape;
  readonly clip: number;
  readonly needleJetMm: number;
  readonly mainJet: number;
  readonly convention: JetConvention;
}

/** Metering over slide lift, 0 to `liftMm` in n points: what two needles are compared by. Source: geometry, orifices in series. */
export function needleProfile(setup: MeteringSetup, liftMm: number, n = 40): readonly ProfilePoint[] {
  within("slide lift", liftMm, 1, 80, "mm");
  within("points", n, 2, 400);
  const raise = needleRaiseMm(setup.needle, setup.clip, 0);
  const main = jetAreaMm2(setup.mainJet, setup.convention);
  return Array.from({ length: n }, (_, i) => {
    const lift = (liftMm * i) / (n - 1);
    const needleMm = needleDiameterMm(setup.needle, lift + raise);
    const ringMm2 = annulusMm2(setup.needleJetMm, needleMm);
    return { liftMm: lift, needleMm, ringMm2, circuitMm2: seriesArea(ringMm2, main) };
  });
}

/**
 * Mean open ring (mm2) between needle and needle jet over the lifts from `fromMm` to `toMm`, exact: along a cone the mean of d squared
 * is (a2 + ab + b2) / 3. Source: geometry.
 */
export function meanRingMm2(needle: NeedleShape, needleJetMm: number, fromMm: number, toMm: number): number {
  within("lift", toMm - fromMm, 0.01, 120, "mm");
  let corner = needle.straightLiftMm;
  const corners = [corner, ...needle.tapers.map((taper) => (corner += taper.lengthMm))];
  const inside = corners.filter((at) => at > fromMm && at < toMm);
  const places = [fromMm, ...inside, toMm];
  let sum = 0;
  places.slice(1).forEach((to, i) => {
    const from = places[i] ?? fromMm;
    const [a, b] = [needleDiameterMm(needle, from), needleDiameterMm(needle, to)];
    annulusMm2(needleJetMm, Math.max(a, b));
    sum += (to - from) * (needleJetMm ** 2 - (a * a + a * b + b * b) / 3);
  });
  return ((Math.PI / 4) * sum) / (toMm - fromMm);
}
