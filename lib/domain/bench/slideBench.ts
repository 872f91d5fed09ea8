import { Refusal } from "../refusal";
import { type CvSlide, holdingPressurePa, slideRiseRatio, springForceN } from "../tuning/slide";
import { slideRiseS } from "../tuning/slideRise";
import { cutSpring } from "../tuning/spring";
import { fitsItsPlace } from "../tuning/springCut";
import { shapedSpring } from "../tuning/springShape";
import type { SlideBench, SlideBenchInput, SlideState } from "./slideBenchTypes";

/** Hole area x spring rate beyond which a slide tends to flutter or snap lean. Source: judgement on common practice. */
const TOO_QUICK = 3.5;

/**
 * A constant-vacuum slide's spring and lift holes, before and after: rate, force, the depressions that lift it, and its rise after
 * a step of depression. Throws Refusal without a rate, OutOfRange for impossible measures.
 * Sources: EN 13906-1, statics, rise as in slideRiseS; starting points all.
 */
export function slideBench(input: SlideBenchInput): SlideBench {
  const spring = shapedSpring({
    wireMm: input.wireMm ?? undefined,
    coilMm: input.coilMm ?? undefined,
    coils: input.coils,
    freeMm: input.freeMm,
    rateNPerM: input.rateNPerM ?? undefined,
    installedMm: input.installedMm,
    shearGPa: input.shearGPa ?? undefined,
  });
  const rate = spring.rateNPerM;
  const coilRatio = (input.coilsAfter ?? input.coils) / input.coils;
  if (coilRatio > 1)
    throw new Refusal("Cutting adds no coils.", "Enter as many coils as now, or fewer.", {
      coilsAfter: `At most ${input.coils}.`,
    });
  const cut = cutSpring(rate, input.freeMm / 1000, coilRatio, input.installedMm / 1000);
  fitsItsPlace({ ...cut, coils: input.coilsAfter ?? input.coils }, input.installedMm / 1000);
  const before = stateOf(input, rate, input.freeMm / 1000, input.holes);
  const after = stateOf(input, cut.rateNPerM, cut.freeM, input.holesAfter);
  const holes = slideRiseRatio(input.holes, input.holesAfter);
  return {
    before,
    after,
    rate: {
      value: cut.rateRatio,
      firmness: "firm",
      because: [
        {
          fact: `${input.coils} to ${input.coilsAfter ?? input.coils} coils`,
          from: "EN 13906-1: rate goes as one over active coils",
          effect: `x ${cut.rateRatio.toFixed(3)}`,
        },
      ],
    },
    holesRatio: {
      value: holes,
      firmness: "starting point",
      because: [
        {
          fact: `${input.holes.count} x ${input.holes.holeMm} mm to ${input.holesAfter.count} x ${input.holesAfter.holeMm} mm`,
          from: "rise time goes as one over lift-hole area",
          effect: `area x ${(1 / holes).toFixed(2)}`,
        },
      ],
    },
    solved: solvedRatio(before, after),
    forceChangeN: after.shutN - before.shutN,
    flutter: cut.rateRatio / holes > TOO_QUICK,
    because: spring.because,
  };
}

function stateOf(
  input: SlideBenchInput,
  rateNPerM: number,
  freeM: number,
  holes: SlideBenchInput["holes"],
): SlideState {
  const slide: CvSlide = {
    boreM: input.boreMm / 1000,
    liftMaxM: input.boreMm / 1000,
    diaphragmM2: (Math.PI / 4) * (input.diaphragmMm / 1000) ** 2,
    massKg: input.massG / 1000,
    rateNPerM,
    freeM,
    inner: innerOf(input),
    installedM: input.installedMm / 1000,
    discharge: 0.85,
    clearanceM: 0,
  };
  const area = holes.count * (Math.PI / 4) * (holes.holeMm / 1000) ** 2;
  const force = (liftM: number) => springForceN(slide, liftM);
  return {
    rateNPerM,
    freeMm: freeM * 1000,
    shutN: force(0),
    fullN: force(slide.liftMaxM),
    beginsPa: holdingPressurePa(slide, 0),
    fullPa: holdingPressurePa(slide, slide.liftMaxM),
    rise: riseOf(slide, area, input),
  };
}

/** Rise to twenty lifts, as far as the depression lifts the slide. */
function riseOf(slide: CvSlide, holesM2: number, input: SlideBenchInput) {
  const rise = [{ liftMm: 0, timeMs: 0 }];
  for (let i = 1; i <= 20; i++) {
    const toM = (slide.liftMaxM * i) / 20;
    if (holdingPressurePa(slide, toM) >= input.depressionPa) break;
    const step = { fromM: 0, toM, depressionPa: input.depressionPa };
    rise.push({ liftMm: toM * 1000, timeMs: 1000 * slideRiseS(slide, step, holesM2, input.densityKgM3) });
  }
  return rise;
}

function solvedRatio(before: SlideState, after: SlideState) {
  const at = Math.min(before.rise.length, after.rise.length) - 1;
  const [a, b] = [before.rise[at], after.rise[at]];
  return a && b && at > 0 ? { toMm: a.liftMm, ratio: b.timeMs / a.timeMs } : null;
}

function innerOf({ innerRateNPerM, innerFreeMm }: SlideBenchInput): CvSlide["inner"] {
  if (innerRateNPerM == null && innerFreeMm == null) return undefined;
  if (innerRateNPerM == null || innerFreeMm == null)
    throw new Refusal(
      "Of the second spring only one measure is given.",
      "Enter its rate and its free length, or neither.",
      { [innerRateNPerM == null ? "innerRate" : "innerFree"]: "Needed with the other." },
    );
  return { rateNPerM: innerRateNPerM, freeM: innerFreeMm / 1000 };
}
