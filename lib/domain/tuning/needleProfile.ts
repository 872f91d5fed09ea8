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
