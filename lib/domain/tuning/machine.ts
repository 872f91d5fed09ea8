import type { Reason } from "../reason";
import { within } from "../refusal";
import type {
  CarburettorType,
  CardFacts,
  FuelName,
  JetConvention,
  Known,
  NeedleShape,
  SettingValues,
  VentedTo,
} from "./targetTypes";

/** A bike with no fact missing: known facts and, where there is none, a stated assumption. SI units unless named. */
export interface Machine {
  readonly type: CarburettorType;
  readonly carburettors: number;
  readonly sweptM3: number;
  readonly cylindersPerCarburettor: number;
  readonly ratedRpm: number;
  readonly boreM: number;
  readonly diaphragmM2: number;
  readonly slideMassKg: number;
  readonly springRate: number;
  readonly springFreeM: number;
  readonly springInstalledM: number;
  readonly springCoils: number | undefined;
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
  readonly assumptions: readonly Reason[];
  /** Fractional sigma that the assumptions add, per unit of relative change. */
  readonly widen: number;
}

/**
 * Fills a model card: each missing fact gets a stated assumption (judgement) that widens the uncertainty.
 * `settings` are the reference settings: they scale the assumed needle and spring. Throws OutOfRange for impossible facts.
 */
export function machineFrom(
  card: CardFacts,
  carburettors: number,
  settings: SettingValues,
  fittedNeedle?: Known<NeedleShape>,
): Machine {
  const assumptions: Reason[] = [];
  let square = 0;
  const known = <T>(
    fact: Known<T> | undefined,
    name: string,
    stand: () => T,
    sigma: number,
    unit = "",
  ): T => {
    if (fact !== undefined && fact.how !== "assumed") return fact.value;
    const value = fact?.value ?? stand();
    square += sigma * sigma;
    const shown =
      typeof value === "object" ? "scaled to bore and main jet" : `${round(value)}${unit && ` ${unit}`}`;
    assumptions.push({ fact: `${name}: ${shown}`, from: "assumed (judgement)", effect: "wider band" });
    return value;
  };
  within("carburettors", carburettors, 1, 4);
  const cc = within(
    "displacement",
    known(card.displacementCc, "Displacement", () => 400, 0.1, "cc"),
    30,
    3000,
    "cc",
  );
  const cylinders = within(
    "cylinders",
    known(card.cylinders, "Cylinders", () => carburettors, 0.03),
    1,
    8,
  );
  const ratedRpm = within(
    "rated speed",
    known(card.ratedRpm, "Rated speed", () => 6500, 0.05, "rpm"),
    2000,
    18_000,
    "rpm",
  );
  const share = cc / carburettors;
  const type = known(card.carburettorType, "Carburettor type", () => "cv" as const, 0.2);
  const boreMm = within(
    "bore",
    known(card.boreMm, "Bore", () => 1.5 * Math.sqrt(share), 0.05, "mm"),
    10,
    60,
    "mm",
  );
  const convention = known(card.jetConvention, "Jet numbering", () => "bore" as const, 0.25);
  const mainJet = settings.mainJet ?? 3.65 * boreMm;
  const scale = (convention === "bore" ? mainJet : 100 * Math.sqrt(mainJet / 100)) / 140;
  const needleJetMm = known(card.needleJetMm, "Needle jet", () => 2.6 * scale, 0.1, "mm");
  const needle = known(fittedNeedle ?? card.needle, "Needle", () => assumedNeedle(needleJetMm, boreMm), 0.15);
  const cv = type === "cv";
  const cvSigma = cv ? 0.1 : 0;
  const diaphragmMm = cv ? known(card.diaphragmMm, "Diaphragm", () => 1.7 * boreMm, cvSigma, "mm") : 60;
  const area = (Math.PI / 4) * (within("diaphragm", diaphragmMm, 20, 150, "mm") / 1000) ** 2;
  const massG = cv ? known(card.slideMassG, "Slide mass", () => 40, 0.02, "g") : 40;
  const freeMm = card.springFreeMm?.value ?? settings.springLengthMm ?? 112;
  const rate = cv
    ? known(card.springRateNPerM, "Slide spring rate", () => (1000 * area) / (boreMm / 1000), cvSigma, "N/m")
    : 100;
  const closedN = 1200 * area - (massG / 1000) * 9.80665;
  const installedMm = cv
    ? known(
        card.springInstalledMm,
        "Spring length, slide down",
        () => Math.max(10, freeMm - (1000 * closedN) / rate),
        cvSigma,
        "mm",
      )
    : 80;
  const flow = ((cc * 1e-6 * ratedRpm) / 120) * VOLUMETRIC;
  const snorkelMm = known(
    card.snorkelMm,
    "Snorkel",
    () => 1000 * Math.sqrt((4 * flow) / (Math.PI * 25)),
    0.15,
    "mm",
  );
  return {
    type,
    carburettors,
    sweptM3: share * 1e-6,
    cylindersPerCarburettor: cylinders / carburettors,
    ratedRpm,
    boreM: boreMm / 1000,
    diaphragmM2: area,
    slideMassKg: within("slide mass", massG, 1, 500, "g") / 1000,
    springRate: within("spring rate", rate, 5, 5000, "N/m"),
    springFreeM: within("spring free length", freeMm, 15, 300, "mm") / 1000,
    springInstalledM: within("spring installed length", installedMm, 5, 300, "mm") / 1000,
    springCoils: card.springCoils?.value ?? settings.springCoils,
    needleJetMm: within("needle jet", needleJetMm, 1, 6, "mm"),
    needle,
    convention,
    ventedTo: card.ventedTo?.value ?? "unknown",
    fuel: known(card.fuel, "Fuel", () => "E10" as const, 0.02),
    snorkelMm: within("snorkel", snorkelMm, 5, 200, "mm"),
    snorkelHoleMm: within(
      "snorkel hole",
      known(card.snorkelHoleMm, "Hole without snorkel", () => 1.25 * snorkelMm, 0.1, "mm"),
      5,
      250,
      "mm",
    ),
    headerMm: within("header pipe", card.headerMm?.value ?? 38, 10, 120, "mm"),
    mainJet,
    pilotJet: settings.pilotJet ?? 1.2 * boreMm,
    assumptions,
    widen: Math.sqrt(square),
  };
}

/** Volumetric efficiency at full load. Source: judgement; it cancels in most of what is relative. */
export const VOLUMETRIC = 0.85;

function assumedNeedle(needleJetMm: number, boreMm: number): NeedleShape {
  const k = needleJetMm / 2.6;
  const angle = (2 * Math.atan((0.375 * k) / (0.63 * boreMm)) * 180) / Math.PI;
  return {
    straightMm: 2.5 * k,
    straightLiftMm: 0.16 * boreMm,
    clipAt: 3,
    clipStepMm: 1,
    clips: 5,
    tapers: [{ lengthMm: 1.2 * boreMm, includedAngleDeg: angle }],
  };
}

function round(value: unknown): string {
  return typeof value === "number" ? String(Math.round(value * 100) / 100) : String(value);
}
