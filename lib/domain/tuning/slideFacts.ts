import { within } from "../refusal";
import type { FittedSpring } from "./fittedSpring";
import { type SaidSpring, type SlideSpring, sameLength, springFrom } from "./springCut";
import { between, type StandIns } from "./standIns";
import type { ModelCardFacts, SettingValues } from "./targetTypes";

/** What moves a constant-vacuum slide, SI. */
export interface SlideFacts {
  readonly diaphragmM2: number;
  readonly slideMassKg: number;
  /** Of the reference settings. */
  readonly spring: SlideSpring;
  /** False where its place is a stand-in: a spring is not refused for being shorter than that. */
  readonly springPlaceKnown: boolean;
  /** What the reference settings say of it. */
  readonly springSaid: SaidSpring;
  /** The spring as delivered, and what the card says of it: a longer spring than the reference's is cut from this one. */
  readonly springNew: { readonly spring: SlideSpring; readonly said: SaidSpring };
  /** A second spring inside the first; undefined: none. */
  readonly innerSpring: Omit<SlideSpring, "coils"> | undefined;
  readonly springInstalledM: number;
}

/** Holding pressure (Pa) of a usual slide when down, and what it gains to full lift. Source: judgement. */
const CLOSED_PA = 1200;
const GAIN_PA = 1000;

/**
 * Slide, diaphragm and spring from card and reference settings; what is missing is chosen so that the slide holds 1200 Pa
 * down and 2200 Pa fully up (judgement). A mechanical slide has none: placeholders that nothing reads. `fitted`: the reference's
 * spring as somebody described it.
 */
export function slideFacts(
  card: ModelCardFacts,
  settings: SettingValues,
  boreMm: number,
  cv: boolean,
  s: StandIns,
  fitted?: FittedSpring,
): SlideFacts {
  const freeMm = within(
    "slide spring free length",
    card.springFreeMm?.value ?? settings.springLengthMm ?? 106,
    20,
    250,
    "mm",
  );
  const springLengthMm = settings.springLengthMm ?? freeMm;
  const whole = sameLength(springLengthMm, freeMm);
  // Coils of another length were counted on another spring.
  const coils = card.springCoils?.value ?? (whole ? settings.springCoils : undefined);
  const delivered: SaidSpring = { springLengthMm: freeMm, springCoils: coils };
  const springSaid: SaidSpring = {
    springLengthMm,
    springCoils: settings.springCoils ?? (whole ? coils : undefined),
  };
  if (!cv)
    return {
      diaphragmM2: 0.003,
      slideMassKg: 0.04,
      spring: { rateNPerM: 100, freeM: 0.106, coils: undefined },
      springPlaceKnown: false,
      springSaid,
      springNew: { spring: { rateNPerM: 100, freeM: 0.106, coils: undefined }, said: springSaid },
      innerSpring: undefined,
      springInstalledM: 0.08,
    };
  const diaphragmMm = s.number(card.diaphragmMm, "Diaphragm", () => between(20, 1.7 * boreMm, 150), 0.1, [
    20,
    150,
    "mm",
  ]);
  const area = (Math.PI / 4) * (diaphragmMm / 1000) ** 2;
  // A small slide is lighter: half of what holds it down is its spring.
  const usualMass = () => between(1, (500 * CLOSED_PA * area) / 9.80665, 40);
  const massG = s.number(card.slideMassG, "Slide mass", usualMass, 0.02, [1, 500, "g"]);
  const usualRate = () => between(5, (GAIN_PA * area) / (boreMm / 1000), 5000);
  const rate = s.number(card.springRateNPerM, "Slide spring rate", usualRate, 0.1, [5, 5000, "N/m"]);
  const preloadN = CLOSED_PA * area - (massG / 1000) * 9.80665;
  const usualLength = () => between(5, freeMm - (1000 * preloadN) / rate, freeMm);
  const installed = s.number(card.springInstalledMm, "Spring length, slide down", usualLength, 0.1, [
    5,
    300,
    "mm",
  ]);
  if (!fitted && springLengthMm < freeMm && springSaid.springCoils === undefined)
    s.note(
      `Slide spring of ${springLengthMm} mm, ${freeMm} mm as delivered: taken as cut, nobody counted its coils`,
    );
  const asNew = { rateNPerM: rate, freeM: freeMm / 1000, coils };
  return {
    diaphragmM2: area,
    slideMassKg: massG / 1000,
    spring: describedSpring(fitted, rate, s) ?? springFrom(asNew, delivered, springSaid),
    springNew: { spring: asNew, said: delivered },
    springPlaceKnown: card.springInstalledMm !== undefined && card.springInstalledMm.how !== "assumed",
    springSaid,
    innerSpring: innerOf(card, installed),
    springInstalledM: installed / 1000,
  };
}

/** What an exchanged spring of unknown rate adds to the uncertainty, per unit of relative change. Source: judgement. */
const UNKNOWN_RATE = 0.15;

/** A described spring, with another's rate where nobody measured its own: noted, and wider where it is not the delivered one. */
export function describedSpring(
  fitted: FittedSpring | undefined,
  usualRateNPerM: number,
  s: StandIns,
): SlideSpring | undefined {
  if (!fitted) return undefined;
  const rateNPerM = fitted.rateNPerM ?? usualRateNPerM;
  if (fitted.rateNPerM === null && fitted.exchanged)
    s.choice(
      undefined,
      "Rate of the exchanged slide spring",
      () => rateNPerM,
      UNKNOWN_RATE,
      `${Math.round(rateNPerM)} N/m, as delivered`,
    );
  within("spring rate", rateNPerM, 5, 5000, "N/m");
  return { rateNPerM, freeM: fitted.freeMm / 1000, coils: fitted.coils ?? undefined };
}

function innerOf(card: ModelCardFacts, installedMm: number): SlideFacts["innerSpring"] {
  const rate = card.innerSpringRateNPerM?.value;
  const free = card.innerSpringFreeMm?.value;
  if (rate === undefined || free === undefined) return undefined;
  within("inner spring rate", rate, 1, 5000, "N/m");
  // An inner spring may be shorter than the place: it helps from the lift on where it is reached.
  return {
    rateNPerM: rate,
    freeM: within("inner spring free length", free, 5, installedMm + 250, "mm") / 1000,
  };
}
