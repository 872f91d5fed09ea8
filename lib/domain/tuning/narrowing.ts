import type { Air } from "../air/weather";
import type { Reason } from "../reason";
import { expectedLog } from "./expectedLog";
import { fuelCurve } from "./fuelCurve";
import { type Machine, machineFrom } from "./machine";
import { REGIONS } from "./regions";
import { type AskingBike, learner, type TaughtRide } from "./ridden";
import type { FuelState, Known, ModelCardFacts, Region, SettingValues } from "./targetTypes";

/** A measurement that nobody has made yet, and what it would do to the likely range of lambda. */
export interface Narrowing {
  /** A fact of the card, or a region that a lambda log would sample. */
  readonly what: { readonly fact: keyof ModelCardFacts } | { readonly region: Region };
  readonly name: string;
  /** Mean one-sigma of lambda over the throttle now and with it, as fractions. */
  readonly now: number;
  readonly then: number;
  readonly because: readonly Reason[];
}

const POINTS = 12;
const REGION_NAMES: Readonly<Record<Region, string>> = {
  pilot: "A lambda log at idle and just off it",
  straight: "A lambda log at an eighth to a quarter throttle",
  taper: "A lambda log at half throttle",
  main: "A lambda log at full throttle",
};

const know = <T>(value: T): Known<T> => ({ value, how: "measured" });
/** Facts that have a stand-in, with the value the model works with. */
const FACTS: readonly (readonly [keyof ModelCardFacts, string, (m: Machine) => Partial<ModelCardFacts>])[] = [
  ["needleJetMm", "The needle jet's bore", (m) => ({ needleJetMm: know(m.needleJetMm) })],
  ["needle", "The needle's shape", (m) => ({ needle: know(m.needle) })],
  ["boreMm", "The carburettor's bore", (m) => ({ boreMm: know(m.boreM * 1000) })],
  [
    "diaphragmMm",
    "The diaphragm's diameter",
    (m) => ({ diaphragmMm: know(1000 * Math.sqrt((4 * m.diaphragmM2) / Math.PI)) }),
  ],
  ["slideMassG", "The slide's mass", (m) => ({ slideMassG: know(m.slideMassKg * 1000) })],
  [
    "springRateNPerM",
    "The slide spring's rate",
    (m) => ({ springRateNPerM: know(m.springNew.spring.rateNPerM) }),
  ],
  [
    "springInstalledMm",
    "The spring's length with the slide shut",
    (m) => ({ springInstalledMm: know(m.springInstalledM * 1000) }),
  ],
  ["snorkelMm", "The snorkel's inside diameter", (m) => ({ snorkelMm: know(m.snorkelMm) })],
  ["snorkelHoleMm", "The hole left with the snorkel out", (m) => ({ snorkelHoleMm: know(m.snorkelHoleMm) })],
  ["jetConvention", "How the jets are numbered", (m) => ({ jetConvention: know(m.convention) })],
  ["ventedTo", "Where bowl and diaphragm are vented", () => ({ ventedTo: know("atmosphere" as const) })],
  ["ratedRpm", "The speed of rated power", (m) => ({ ratedRpm: know(m.ratedRpm) })],
  ["fuel", "The fuel", (m) => ({ fuel: know(m.fuel) })],
];

/** What the bike and its model were taught so far. */
export interface Taught {
  readonly id: number;
  readonly delivered?: SettingValues | undefined;
  readonly rides: readonly TaughtRide[];
}

/** A bike of which nothing was kept. */
const UNTAUGHT: Taught = { id: 0, rides: [] };

/**
 * Measurements by how much each would narrow the likely range of lambda over the throttle, best first, for a state in an air:
 * every assumed fact is taken as measured at the value that stands in for it, every region as logged at the opening where it decides
 * most, by the same sum that keeping such a log does. What would narrow nothing is left out. Facts act through a change: give a changed state. Throws what fuelCurve throws.
 * Source: the model's own uncertainty (station.ts), judgement.
 */
export function narrowings(given: FuelState, air: Air, taught: Taught = UNTAUGHT): readonly Narrowing[] {
  const asking: AskingBike = { ...given, id: taught.id, delivered: taught.delivered };
  const { learn, certainty } = learner(asking, taught.rides);
  const calibration = learn();
  const state = { ...given, calibration };
  const now = meanSigma(state, air);
  const machine = machineFrom(
    state.card,
    state.carburettors,
    state.reference.settings as SettingValues,
    state.reference.needle ?? state.card.needle,
  );
  const facts = FACTS.flatMap(([fact, name, known]): Narrowing[] => {
    if (!isAssumed(state.card, fact)) return [];
    const card = { ...state.card, ...known(machine) };
    const then = meanSigma({ ...state, card }, air);
    return [
      {
        what: { fact },
        name,
        now,
        then,
        because: [{ fact: `${name} is assumed`, from: "model card", effect: "wider band" }],
      },
    ];
  });
  const logs = REGIONS.flatMap((region): Narrowing[] => {
    const log = expectedLog(asking, region, calibration);
    if (!log) return [];
    const kept = { ...log, bikeId: taught.id, current: true };
    const then = meanSigma({ ...state, calibration: certainty([kept]) }, air);
    return [
      {
        what: { region },
        name: REGION_NAMES[region],
        now,
        then,
        because: [{ fact: "No log has sampled it yet, or another would add to it", from: "calibration" }],
      },
    ];
  });
  return [...facts, ...logs].filter((n) => n.then < now - 1e-5).sort((a, b) => a.then - b.then);
}

function isAssumed(card: ModelCardFacts, fact: keyof ModelCardFacts): boolean {
  const known = card[fact];
  return known === undefined || known.how === "assumed" || (fact === "ventedTo" && known.value === "unknown");
}

/** Mean one-sigma of lambda over the throttle, as fractions: what the band shown is made of. */
export function meanSigma(state: FuelState, air: Air): number {
  const { points } = fuelCurve(state, air, POINTS);
  return points.reduce((sum, p) => sum + Math.log(p.high / p.low) / 3, 0) / points.length;
}
