import { Refusal } from "../refusal";
import type { ModelCardFacts, SettingValues } from "./targetTypes";

/** A slide spring: one wire and coil diameter, so that rate times coils stays and free length goes with the coils. SI. */
export interface SlideSpring {
  readonly rateNPerM: number;
  readonly freeM: number;
  /** Active coils; undefined where nobody counted them. */
  readonly coils: number | undefined;
}

/** Free length and coils as a sheet says them. */
export interface SaidSpring {
  readonly springLengthMm?: number | undefined;
  readonly springCoils?: number | undefined;
}

/** Coils and length may disagree by this much before they name two springs: end coils have length and no spring. Judgement. */
const APART = 0.06;
/** A sheet's length is read to the millimetre; nearer than this it is the same. */
const SAME_MM = 0.05;

/** The spring that a card's rate belongs to. */
export const deliveredSpring = (card: ModelCardFacts): SaidSpring => ({
  springLengthMm: card.springFreeMm?.value,
  springCoils: card.springCoils?.value,
});

/** Whether two lengths are the same to a sheet, mm; one that is not said is no length. */
export const sameLength = (a: number | undefined, b: number | undefined): boolean =>
  a !== undefined && b !== undefined && Math.abs(a - b) <= SAME_MM;

/**
 * The spring that a sheet's words make of another: what differs from `was` was changed, what is the same follows from it. Cut
 * coils change free length and rate, k0 N0 = k1 N1; a new free length alone means cut coils as well, and one that is shorter with
 * all its coils counted has sagged and kept its rate. Throws Refusal where length and coils contradict each other. Source: EN
 * 13906-1, identity at even pitch.
 */
export function springFrom(base: SlideSpring, was: SaidSpring, now: SaidSpring): SlideSpring {
  const { springLengthMm: length, springCoils: coils } = now;
  const byCoils =
    coils !== undefined && base.coils !== undefined && coils !== was.springCoils
      ? coils / base.coils
      : undefined;
  const byLength =
    length === undefined || sameLength(length, was.springLengthMm) ? undefined : length / (1000 * base.freeM);
  if (byLength !== undefined && byLength < 1 && coils !== undefined && coils === was.springCoils)
    return { ...base, freeM: base.freeM * byLength };
  const left = byCoils ?? byLength ?? 1;
  if (byCoils !== undefined && byLength !== undefined && Math.abs(byLength / byCoils - 1) > APART)
    throw new Refusal(
      `A spring cut from ${base.coils?.toFixed(1)} to ${coils} coils is ${(1000 * base.freeM * byCoils).toFixed(0)} mm long, not ${length} mm.`,
      "Enter the coils or the length, or both as measured on the spring that is fitted.",
      { springLengthMm: "Does not go with the coils." },
    );
  return {
    rateNPerM: base.rateNPerM / left,
    freeM: byLength !== undefined ? (length ?? 0) / 1000 : base.freeM * left,
    coils: base.coils === undefined ? undefined : base.coils * left,
  };
}

/** Refuses a spring that is shorter than its place: it would rattle and hold nothing down. */
export function fitsItsPlace(spring: SlideSpring, installedM: number): SlideSpring {
  if (spring.freeM < installedM)
    throw new Refusal(
      `A slide spring of ${(1000 * spring.freeM).toFixed(1)} mm is shorter than its place of ${(1000 * installedM).toFixed(1)} mm.`,
      "Measure the free length and the length with the slide shut again.",
      { springLengthMm: "Shorter than its place." },
    );
  return spring;
}

/**
 * What a change of the spring leaves the sheet saying: the length that follows from cut coils, the coils that follow from a new
 * length, since work shortens a spring by cutting it. One that gets longer is another spring, as `delivered` where that is known.
 */
export function settledSpring(
  found: SettingValues,
  values: SettingValues,
  delivered: SaidSpring = {},
): Pick<SettingValues, "springLengthMm" | "springCoils"> {
  const { springLengthMm, springCoils } = found;
  if (springLengthMm === undefined) return {};
  const recounted = values.springCoils !== springCoils;
  const longer = (values.springLengthMm ?? 0) > springLengthMm && !recounted;
  const from = longer && delivered.springCoils !== undefined ? delivered : found;
  const base = {
    rateNPerM: 1,
    freeM: (from.springLengthMm ?? springLengthMm) / 1000,
    coils: from.springCoils,
  };
  const { springCoils: _, ...uncounted } = values;
  const now = springFrom(base, from, recounted ? values : uncounted);
  if (Math.abs(1000 * now.freeM - springLengthMm) < 1e-6) return {};
  return {
    springLengthMm: Number((1000 * now.freeM).toFixed(1)),
    ...(now.coils === undefined ? {} : { springCoils: Number(now.coils.toFixed(2)) }),
  };
}
