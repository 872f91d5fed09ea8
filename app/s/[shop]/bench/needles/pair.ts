import type { NeedleDrawn } from "@/app/_ui/NeedleAndJet";
import type { BenchBike } from "@/lib/data/bikes/benchBike";
import type { NeedleInJet, PairInput } from "@/lib/domain/bench/needlePair";
import { needleThrough, stationsOf, stationsText } from "@/lib/domain/bench/needleStations";
import { Refusal } from "@/lib/domain/refusal";
import { annulusMm2, needleDiameterMm } from "@/lib/domain/tuning/needle";
import type { NeedleShape } from "@/lib/domain/tuning/targetTypes";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { type BenchQuery, type BenchValues, fieldText } from "@/lib/schemas/bench";
import { NEEDLE_FIELDS } from "@/lib/schemas/benchPartFields";

type Values = BenchValues<typeof NEEDLE_FIELDS>;

/** The two needles of an address, by measured stations where given, else by tapers. Throws Refusal by field. */
export function pairOf(v: Values): PairInput {
  return {
    a: needleOf(v, "a"),
    b: needleOf(v, "b"),
    grooveStepMm: v.grooveStep,
    needleJetMm: v.needleJet,
    mainJet: v.mainJet,
    convention: v.convention,
    fullLiftMm: v.full,
  };
}

function needleOf(v: Values, which: "a" | "b"): NeedleInJet {
  const raisedGrooves = v[`${which}_clip`] ?? 0;
  const typed = v[`${which}_stations`];
  if (typed) return { shape: needleThrough(stationsOf(typed, `${which}_stations`, true)), raisedGrooves };
  const needed = (name: "straight" | "lift" | "length1" | "angle1") => {
    const value = v[`${which}_${name}`];
    if (value !== null) return value;
    throw new Refusal(
      "A needle is not described.",
      "Give its straight part and one taper, or its measured stations.",
      { [`${which}_${name}`]: "Enter this, or measured stations." },
    );
  };
  const [straightMm, straightLiftMm] = [needed("straight"), needed("lift")];
  const tapers = [{ lengthMm: needed("length1"), includedAngleDeg: needed("angle1") }];
  const [length2, angle2] = [v[`${which}_length2`], v[`${which}_angle2`]];
  if (length2 !== null && angle2 !== null) tapers.push({ lengthMm: length2, includedAngleDeg: angle2 });
  return {
    shape: { straightMm, straightLiftMm, clipAt: 0, clipStepMm: v.grooveStep, clips: 1, tapers },
    raisedGrooves,
  };
}

/** A needle as the picture draws it: its outline three millimetres either side of the jet. */
export function drawnNeedle(
  name: string,
  pair: PairInput,
  which: "a" | "b",
  liftMm: number,
  inJetMm: number,
): NeedleDrawn {
  const { shape, raisedGrooves } = pair[which];
  const here = liftMm + raisedGrooves * pair.grooveStepMm;
  return {
    name,
    outline: Array.from({ length: 25 }, (_, i) => {
      const atMm = -3 + i * 0.25;
      return { atMm, diameterMm: needleDiameterMm(shape, Math.max(-20, here - atMm)) };
    }),
    inJetMm,
    ringMm2: annulusMm2(pair.needleJetMm, inJetMm),
  };
}

const EXAMPLE: NeedleShape = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 3,
  clipStepMm: 1,
  clips: 5,
  tapers: [{ lengthMm: 40, includedAngleDeg: 1.79 }],
};

/**
 * What the page begins with: the needle in the bike's carburettor against the one that its model card was delivered with, where
 * that is another; else one with a little more taper; or two of usual proportions.
 */
export function needleExample(
  bike: BenchBike | null,
  system: UnitSystem,
  position?: number | null,
): BenchQuery {
  const card = bike?.card;
  const place = bike?.carburettors.find((one) => one.position === position) ?? bike?.carburettors[0];
  const own = place?.needle?.value;
  const delivered = card?.needle?.value;
  const shape = own ?? delivered ?? EXAMPLE;
  const other = own ? delivered : undefined;
  const settings = place?.settings;
  const text = (name: keyof typeof NEEDLE_FIELDS, value: number | undefined) =>
    [name, fieldText(NEEDLE_FIELDS[name], value, system)] as const;
  const needle = (which: "a" | "b", more: number) =>
    Object.fromEntries([
      text(`${which}_straight`, shape.straightMm),
      text(`${which}_lift`, shape.straightLiftMm),
      text(`${which}_length1`, shape.tapers[0]?.lengthMm),
      text(`${which}_angle1`, (shape.tapers[0]?.includedAngleDeg ?? 1.8) + more),
      text(`${which}_length2`, shape.tapers[1]?.lengthMm),
      text(`${which}_angle2`, shape.tapers[1]?.includedAngleDeg),
      text(
        `${which}_clip`,
        which === "a" && settings?.clipPosition ? settings.clipPosition.value - shape.clipAt : 0,
      ),
    ]);
  const raised = settings?.clipPosition && shape.clips > 0 ? settings.clipPosition.value - shape.clipAt : 0;
  const measured = (which: "a" | "b", needle: NeedleShape) =>
    Object.fromEntries([
      [`${which}_stations`, stationsText(needle)] as const,
      text(`${which}_clip`, which === "a" ? raised : 0),
    ]);
  return {
    ...Object.fromEntries([
      text("needleJet", card?.needleJetMm?.value ?? shape.straightMm * 1.04),
      text("mainJet", settings?.mainJet?.value ?? 140),
      text("full", card?.boreMm?.value ?? 38),
      text("at", 12),
      text("grooveStep", shape.clipStepMm),
    ]),
    convention: card?.jetConvention?.value ?? "bore",
    ...(own ? measured("a", own) : needle("a", 0)),
    ...(other ? measured("b", other) : needle("b", 0.3)),
  };
}
