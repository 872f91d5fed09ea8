import { OutOfRange, Refusal } from "../refusal";
import { needleDiameterMm } from "../tuning/needle";
import { needleProfile } from "../tuning/needleProfile";
import type { JetConvention, NeedleShape } from "../tuning/targetTypes";

/** A measured needle: the slide lift at which this diameter stands in the needle jet. */
export interface NeedleStation {
  readonly liftMm: number;
  readonly diameterMm: number;
}

/**
 * Reads stations as typed, "0 2.50; 6 2.50; 30 1.75": lift and diameter in mm, at least two, lifts rising, diameters never
 * growing. Throws Refusal naming the pair.
 */
export function stationsOf(text: string, field: string): readonly NeedleStation[] {
  const refuse = (message: string) => new Refusal(message, "Write lift and diameter in mm, such as 0 2.50; 6 2.50; 30 1.75.", { [field]: message });
  const pairs = text.split(/[;\n]/).map((pair) => pair.trim()).filter(Boolean);
  const stations = pairs.map((pair) => {
    const found = /^(\d+(?:[.,]\d+)?)[\s:=]+(\d+(?:[.,]\d+)?)$/.exec(pair);
    if (!found) throw refuse(`"${pair}" is no lift and diameter.`);
    const [liftMm, diameterMm] = [found[1], found[2]].map((n) => Number(n?.replace(",", "."))) as [number, number];
    if (diameterMm < 0.5 || diameterMm > 6 || liftMm > 120) throw refuse(`"${pair}" is outside 0 to 120 mm of lift and 0.5 to 6 mm of diameter.`);
    return { liftMm, diameterMm };
  });
  if (stations.length < 2) throw refuse("A measured needle wants two stations or more.");
  stations.forEach((s, i) => {
    const before = stations[i - 1];
    if (before && s.liftMm <= before.liftMm) throw refuse(`The lifts do not rise at ${s.liftMm} mm.`);
    if (before && s.diameterMm > before.diameterMm) throw refuse(`The needle grows thicker at ${s.liftMm} mm.`);
  });
  return stations;
}

/** A needle's shape through measured stations: straight parts between them, cones where it thins. Source: geometry. */
export function needleThrough(stations: readonly NeedleStation[]): NeedleShape {
  const [first] = stations;
  if (!first) throw new Refusal("A measured needle wants two stations or more.", "Enter them.");
  const tapers = stations.slice(1).map((s, i) => {
    const before = stations[i] ?? first;
    const lengthMm = s.liftMm - before.liftMm;
    return { lengthMm, includedAngleDeg: (2 * Math.atan((before.diameterMm - s.diameterMm) / (2 * lengthMm)) * 180) / Math.PI };
  });
  return { straightMm: first.diameterMm, straightLiftMm: first.liftMm, clipAt: 0, clipStepMm: 1, clips: 1, tapers };
}

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
export function raised(needle: NeedleInJet, grooveStepMm: number): NeedleShape {
  return { ...needle.shape, clipAt: 0, clipStepMm: grooveStepMm };
}

/**
 * Two needles in one needle jet over slide lift, 0 to full in n points: ring, ring and main in series, and their ratio.
 * Throws Refusal when a needle does not pass the jet, OutOfRange for impossible measures. Source: geometry, orifices in series.
 */
export function compareNeedles(p: PairInput, n = 41): readonly PairPoint[] {
  const profile = (needle: NeedleInJet) =>
    needleProfile({ needle: raised(needle, p.grooveStepMm), clip: needle.raisedGrooves, needleJetMm: p.needleJetMm, mainJet: p.mainJet, convention: p.convention }, p.fullLiftMm, n);
  const b = profile(p.b);
  return profile(p.a).map((a, i) => {
    const other = b[i] ?? a;
    return { liftMm: a.liftMm, a, b: other, ratio: other.circuitMm2 / a.circuitMm2 };
  });
}

/** Points of a comparison at one lift, mm. Throws OutOfRange beyond full lift. */
export function needlesAt(p: PairInput, liftMm: number): { readonly a: number; readonly b: number } {
  if (!(liftMm >= 0 && liftMm <= p.fullLiftMm)) throw new OutOfRange("lift", liftMm, 0, p.fullLiftMm, "mm");
  const at = (needle: NeedleInJet) => needleDiameterMm(needle.shape, liftMm + needle.raisedGrooves * p.grooveStepMm);
  return { a: at(p.a), b: at(p.b) };
}
