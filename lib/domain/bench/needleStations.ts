import { Refusal } from "../refusal";
import { needleDiameterMm } from "../tuning/needle";
import type { NeedleShape } from "../tuning/targetTypes";

/** A measured needle: the slide lift at which this diameter stands in the needle jet. */
export interface NeedleStation {
  readonly liftMm: number;
  readonly diameterMm: number;
}

/**
 * Reads stations as typed, "0 2.50; 6 2.50; 30 1.75": lift and diameter in mm, at least two, lifts rising, diameters never
 * growing unless `worn`: wear leaves a needle thinner above than below. Throws Refusal naming the pair.
 */
export function stationsOf(text: string, field: string, worn = false): readonly NeedleStation[] {
  const refuse = (message: string) =>
    new Refusal(message, "Write lift and diameter in mm, such as 0 2.50; 6 2.50; 30 1.75.", {
      [field]: message,
    });
  const pairs = text
    .split(/[;\n]/)
    .map((pair) => pair.trim())
    .filter(Boolean);
  const stations = pairs.map((pair) => {
    const found = /^(\d+(?:[.,]\d+)?)[\s:=]+(\d+(?:[.,]\d+)?)$/.exec(pair);
    if (!found) throw refuse(`"${pair}" is no lift and diameter.`);
    const [liftMm, diameterMm] = [found[1], found[2]].map((n) => Number(n?.replace(",", "."))) as [
      number,
      number,
    ];
    if (diameterMm < 0.5 || diameterMm > 6 || liftMm > 120)
      throw refuse(`"${pair}" is outside 0 to 120 mm of lift and 0.5 to 6 mm of diameter.`);
    return { liftMm, diameterMm };
  });
  if (stations.length < 2) throw refuse("A measured needle wants two stations or more.");
  stations.forEach((s, i) => {
    const before = stations[i - 1];
    if (before && s.liftMm <= before.liftMm) throw refuse(`The lifts do not rise at ${s.liftMm} mm.`);
    if (before && !worn && s.diameterMm > before.diameterMm)
      throw refuse(`The needle grows thicker at ${s.liftMm} mm.`);
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
    return {
      lengthMm,
      includedAngleDeg: (2 * Math.atan((before.diameterMm - s.diameterMm) / (2 * lengthMm)) * 180) / Math.PI,
    };
  });
  return {
    straightMm: first.diameterMm,
    straightLiftMm: first.liftMm,
    clipAt: 0,
    clipStepMm: 1,
    clips: 1,
    tapers,
  };
}

/** A needle as typed stations say it: its diameter at the closed slide, then at each corner that the lift reaches. */
export function stationsText(shape: NeedleShape): string {
  let lift = shape.straightLiftMm;
  const corners = [lift, ...shape.tapers.map((taper) => (lift += taper.lengthMm))].filter((at) => at > 0.05);
  return [0, ...corners]
    .map((at) => `${Number(at.toFixed(2))} ${Number(needleDiameterMm(shape, at).toFixed(3))}`)
    .join("; ");
}
