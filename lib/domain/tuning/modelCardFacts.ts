import type { HowKnown } from "./settings";
import type { Known, ModelCardFacts, NeedleShape } from "./targetTypes";

/** A model card as it is kept: its own columns and its facts. */
export interface KeptModelCard {
  readonly displacementCc: number;
  readonly cylinders: number;
  readonly carburettorType: string;
  readonly facts: readonly KeptFact[];
}

export interface KeptFact {
  readonly key: string;
  readonly value: number | null;
  readonly text: string | null;
  readonly how: string;
}

const NUMBERS = [
  "strokeMm",
  "ratedRpm",
  "boreMm",
  "diaphragmMm",
  "slideMassG",
  "springRateNPerM",
  "springFreeMm",
  "springCoils",
  "springInstalledMm",
  "innerSpringRateNPerM",
  "innerSpringFreeMm",
  "needleJetMm",
  "snorkelMm",
  "snorkelHoleMm",
  "headerMm",
  "deliveredScrewTurns",
] as const;

const TYPES: Readonly<Record<string, "cv" | "mechanical">> = {
  "constant vacuum": "cv",
  "mechanical slide": "mechanical",
};

/**
 * What the tuning calculations may know of a model, from a kept model card; facts the card lacks are absent.
 * The card's own columns count as read off paper. A needle needs its straight part, the lift where its taper
 * begins and one whole taper; its clip facts have the usual stand-ins (groove 3 of 5, 1 mm apart: judgement), and say so.
 */
export function modelCardFacts(card: KeptModelCard): ModelCardFacts {
  const found = new Map(card.facts.map((fact) => [fact.key, fact]));
  const number = (key: string): Known<number> | undefined => {
    const fact = found.get(key);
    return fact && fact.value !== null ? { value: fact.value, how: fact.how as HowKnown } : undefined;
  };
  const word = <T extends string>(key: string, allowed: readonly T[]): Known<T> | undefined => {
    const fact = found.get(key);
    const value = allowed.find((each) => each === fact?.text);
    return fact && value ? { value, how: fact.how as HowKnown } : undefined;
  };
  const type = TYPES[card.carburettorType];
  return {
    ...Object.fromEntries(NUMBERS.map((key) => [key, number(key)])),
    displacementCc: { value: card.displacementCc, how: "read" },
    cylinders: { value: card.cylinders, how: "read" },
    carburettorType: type && { value: type, how: "read" },
    jetConvention: word("jetConvention", ["bore", "flow"]),
    ventedTo: word("ventedTo", ["atmosphere", "airbox", "unknown"]),
    fuel: word("fuel", ["E0", "E10", "E85"]),
    needle: needleOf(card.facts),
  };
}

/** The delivered needle's shape; undefined without its straight part, the lift where its taper begins and one whole taper. */
export function needleOf(facts: readonly KeptFact[]): Known<NeedleShape> | undefined {
  const number = (key: string): Known<number> | undefined => {
    const fact = facts.find((one) => one.key === key);
    return fact && fact.value !== null ? { value: fact.value, how: fact.how as HowKnown } : undefined;
  };
  const straight = number("needleStraightMm");
  const lift = number("needleStraightLiftMm");
  if (!straight || !lift) return undefined;
  const tapers: { lengthMm: number; includedAngleDeg: number }[] = [];
  for (const at of [1, 2, 3]) {
    const length = number(`needleTaper${at}LengthMm`);
    const angle = number(`needleTaper${at}Deg`);
    if (!length || !angle) break;
    tapers.push({ lengthMm: length.value, includedAngleDeg: angle.value });
  }
  if (tapers.length === 0) return undefined;
  const clips = number("needleClips")?.value;
  const length = number("needleStraightLengthMm")?.value;
  const shape: NeedleShape = {
    straightMm: straight.value,
    straightLiftMm: lift.value,
    clipAt: number("needleClipAt")?.value ?? 3,
    clipStepMm: number("needleClipStepMm")?.value ?? 1,
    clips: clips ?? 5,
    ...(clips === undefined ? { groovesAssumed: true } : {}),
    ...(length === undefined ? {} : { planeMm: length - lift.value }),
    tapers,
  };
  return { value: shape, how: weakest([straight.how, lift.how]) };
}

/** A shape is known no better than its least sure measure. */
function weakest(hows: readonly HowKnown[]): HowKnown {
  const order: readonly HowKnown[] = ["assumed", "computed", "read", "measured"];
  return order.find((how) => hows.includes(how)) ?? "assumed";
}
