import { OutOfRange } from "../refusal";
import { needleDiameterMm } from "../tuning/needle";
import { needleProfile } from "../tuning/needleProfile";
import type { JetConvention, NeedleShape } from "../tuning/targetTypes";

export interface NeedleInJet {
  readonly shape: NeedleShape;
  /** Grooves by which the needle is raised (minus: lowered). */
  readonly raisedGrooves: number;
}

export interface PairInput {
  readonly a: NeedleInJet;
  readonly b: NeedleInJet;
  readonly grooveStepMm: number;
  readonly needleJetMm: number;
  readonly mainJet: number;
  readonly convention: JetConvention;
  readonly fullLiftMm: number;
}

export interface PairPoint {
  readonly liftMm: number;
  readonly a: { readonly needleMm: number; readonly ringMm2: number; readonly circuitMm2: number };
  readonly b: { readonly needleMm: number; readonly ringMm2: number; readonly circuitMm2: number };
  /** Fuel of the second over the first: needle ring and main jet in series. */
  readonly ratio: number;
}

/** The raised shape, described from its own clip as 0. */
function raised(needle: NeedleInJet, grooveStepMm: number): NeedleShape {
  return { ...needle.shape, clipAt: 0, clipStepMm: grooveStepMm };
}

/**
 * Two needles in one needle jet over slide lift, 0 to full in n points: ring, ring and main in series, and their ratio.
 * Throws Refusal when a needle does not pass the jet, OutOfRange for impossible measures. Source: geometry, orifices in series.
 */
export function compareNeedles(p: PairInput, n = 41): readonly PairPoint[] {
  const profile = (needle: NeedleInJet) =>
    needleProfile(
      {
        needle: raised(needle, p.grooveStepMm),
        clip: needle.raisedGrooves,
        needleJetMm: p.needleJetMm,
        mainJet: p.mainJet,
        convention: p.convention,
      },
      p.fullLiftMm,
      n,
    );
  const b = profile(p.b);
  return profile(p.a).map((a, i) => {
    const other = b[i] ?? a;
    return { liftMm: a.liftMm, a, b: other, ratio: other.circuitMm2 / a.circuitMm2 };
  });
}

/** Points of a comparison at one lift, mm. Throws OutOfRange beyond full lift. */
export function needlesAt(p: PairInput, liftMm: number): { readonly a: number; readonly b: number } {
  if (!(liftMm >= 0 && liftMm <= p.fullLiftMm)) throw new OutOfRange("lift", liftMm, 0, p.fullLiftMm, "mm");
  const at = (needle: NeedleInJet) =>
    needleDiameterMm(needle.shape, liftMm + needle.raisedGrooves * p.grooveStepMm);
  return { a: at(p.a), b: at(p.b) };
}
