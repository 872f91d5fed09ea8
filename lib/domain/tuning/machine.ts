import type { Reason } from "../reason";
import { within } from "../refusal";
import type { FittedSpring } from "./fittedSpring";
import { type FlowAreas, type Flows, flowAreas } from "./flowFigures";
import { describedSpring, type SlideFacts, slideFacts } from "./slideFacts";
import { type SlideSpring, sameLength } from "./springCut";
import { between, StandIns, usualNeedle } from "./standIns";
import type {
  CarburettorType,
  FuelName,
  JetConvention,
  Known,
  ModelCardFacts,
  NeedleShape,
  SettingValues,
  VentedTo,
} from "./targetTypes";
import { type FillingPoint, VOLUMETRIC } from "./volumetric";

/** A bike with no fact missing: known facts and, where there is none, a stated assumption. SI units unless named. */
export interface Machine extends SlideFacts {
  readonly type: CarburettorType;
  readonly carburettors: number;
  readonly sweptM3: number;
  readonly cylindersPerCarburettor: number;
  readonly ratedRpm: number;
  readonly boreM: number;
  readonly needleJetMm: number;
  readonly needle: NeedleShape;
  readonly convention: JetConvention;
  readonly ventedTo: VentedTo;
  readonly fuel: FuelName;
  readonly snorkelMm: number;
  readonly snorkelHoleMm: number;
  readonly headerMm: number;
  readonly mainJet: number;
  readonly pilotJet: number;
  /** Float height of the reference: only differences from it act, and none where it is not known. */
  readonly floatHeightMm: number | undefined;
  /** The bike's own filling over engine speed; undefined: the usual one. */
  readonly filling: readonly FillingPoint[] | undefined;
  /** The spring that is fitted now, where it is described; undefined: the reference's, as the sheet says it was cut. */
  readonly springNow: SlideSpring | undefined;
  /** Filter and silencer now and of the reference, as openings. */
  readonly flows: { readonly now: FlowAreas; readonly reference: FlowAreas };
  readonly assumptions: readonly Reason[];
  /** Fractional sigma that the assumptions add, per unit of relative change. */
  readonly widen: number;
}

/** Engine speed of rated power where no card says it. Source: judgement. */
export const USUAL_RATED_RPM = 6500;
/** Mean air speed (m/s) in a delivered snorkel at rated speed. Source: judgement. */
const SNORKEL_SPEED = 25;

/**
 * Fills a model card: each missing fact gets a stated assumption (judgement) that widens the uncertainty.
 * `settings` are the reference settings: they scale the assumed needle and spring. Throws OutOfRange for impossible facts.
 */
export function machineFrom(
  card: ModelCardFacts,
  carburettors: number,
  settings: SettingValues,
  fittedNeedle?: Known<NeedleShape>,
  described: {
    readonly springs?: { readonly [K in "reference" | "now"]?: FittedSpring | undefined };
    readonly flows?: { readonly [K in "reference" | "now"]?: Flows | undefined };
  } = {},
): Machine {
  const { springs = {}, flows = {} } = described;
  const s = new StandIns();
  within("carburettors", carburettors, 1, 4);
  const cc = s.number(card.displacementCc, "Displacement", () => 400, 0.1, [30, 3000, "cc"]);
  const cylinders = s.number(card.cylinders, "Cylinders", () => carburettors, 0.03, [1, 8, ""]);
  const ratedRpm = s.number(card.ratedRpm, "Rated speed", () => USUAL_RATED_RPM, 0.05, [2000, 18_000, "rpm"]);
  const type = s.choice(card.carburettorType, "Carburettor type", () => "cv" as const, 0.2);
  const usualBore = () => between(10, 1.5 * Math.sqrt(cc / carburettors), 60);
  const boreMm = s.number(card.boreMm, "Bore", usualBore, 0.05, [10, 60, "mm"]);
  const convention = s.choice(card.jetConvention, "Jet numbering", () => "bore" as const, 0.25);
  const mainJet = settings.mainJet ?? between(40, 3.65 * boreMm, 300);
  const needle = fittedNeedle ?? card.needle;
  const scale = (convention === "bore" ? mainJet : 10 * Math.sqrt(mainJet)) / 140;
  const usualJet = () => between(1, needle ? needle.value.straightMm * 1.04 : 2.6 * scale, 6);
  const needleJetMm = s.number(card.needleJetMm, "Needle jet", usualJet, 0.1, [1, 6, "mm"]);
  const flow = ((cc * 1e-6 * ratedRpm) / 120) * VOLUMETRIC;
  const usualSnorkel = () => between(5, 1000 * Math.sqrt((4 * flow) / (Math.PI * SNORKEL_SPEED)), 200);
  const snorkelMm = s.number(card.snorkelMm, "Snorkel", usualSnorkel, 0.15, [5, 200, "mm"]);
  const ventedTo = card.ventedTo?.value ?? "unknown";
  if (ventedTo === "unknown") s.note("Where the bowl is vented: unknown, both cases computed");
  const slide = slideFacts(card, settings, boreMm, type === "cv", s, springs.reference);
  const { reference: was } = springs;
  const isDelivered =
    was !== undefined && !was.exchanged && sameLength(was.freeMm, slide.springNew.said.springLengthMm);
  const deliveredRate = (isDelivered ? slide : slide.springNew).spring.rateNPerM;
  return {
    ...slide,
    flows: flowAreas(flows.now, flows.reference, s),
    springNow:
      type !== "cv"
        ? undefined
        : springs.now === springs.reference
          ? undefined
          : describedSpring(springs.now, deliveredRate, s),
    type,
    carburettors,
    sweptM3: (cc / carburettors) * 1e-6,
    cylindersPerCarburettor: cylinders / carburettors,
    ratedRpm,
    boreM: boreMm / 1000,
    needleJetMm,
    needle: s.choice(
      needle,
      "Needle",
      () => usualNeedle(needleJetMm, boreMm, settings.clipPosition),
      0.15,
      "of usual proportions",
    ),
    convention,
    ventedTo,
    fuel: s.choice(card.fuel, "Fuel", () => "E10" as const, 0.02),
    snorkelMm,
    snorkelHoleMm: s.number(card.snorkelHoleMm, "Hole without snorkel", () => 1.25 * snorkelMm, 0.1, [
      5,
      250,
      "mm",
    ]),
    headerMm: s.number(card.headerMm, "Header pipe", () => 38, 0, [10, 120, "mm"]),
    mainJet,
    pilotJet: settings.pilotJet ?? between(10, 1.2 * boreMm, 100),
    floatHeightMm: settings.floatHeightMm,
    filling: card.filling?.value,
    assumptions: s.assumptions,
    widen: s.widen,
  };
}
