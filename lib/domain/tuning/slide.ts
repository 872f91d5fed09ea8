import { Refusal, within } from "../refusal";

/** Area (m2) uncovered by a slide lifted `liftM` in a round bore, whole from the bore on: the circular segment below it. Source: geometry. Throws OutOfRange. */
export function slidePortM2(boreM: number, liftM: number): number {
  within("bore", boreM, 0.005, 0.1, "m");
  const h = Math.min(within("slide lift", liftM, 0, 0.11, "m"), boreM);
  const r = boreM / 2;
  return r * r * Math.acos((r - h) / r) - (r - h) * Math.sqrt(Math.max(0, 2 * r * h - h * h));
}

export interface CvSlide {
  readonly boreM: number;
  readonly liftMaxM: number;
  readonly diaphragmM2: number;
  readonly massKg: number;
  readonly rateNPerM: number;
  readonly freeM: number;
  /** A second spring inside the first, on the same seats; absent: none. */
  readonly inner?: { readonly rateNPerM: number; readonly freeM: number } | undefined;
  /** Length of the spring with the slide down. */
  readonly installedM: number;
  readonly discharge: number;
  /** Gap under the closed slide. */
  readonly clearanceM: number;
}

export interface SlideBalance {
  readonly liftM: number;
  /** Depression (Pa) at the slide by the flow alone. */
  readonly depressionPa: number;
}

/** Force (N) of a slide's springs at a lift: each pushes once it is shorter than free, nested ones add up. Source: statics. */
export function springForceN(
  slide: Pick<CvSlide, "rateNPerM" | "freeM" | "inner" | "installedM">,
  liftM: number,
): number {
  const push = (s: { rateNPerM: number; freeM: number }) =>
    Math.max(0, s.rateNPerM * (s.freeM - slide.installedM + liftM));
  return push(slide) + (slide.inner ? push(slide.inner) : 0);
}

/** Pressure difference (Pa) that holds a constant-vacuum slide at a lift: (k (L0 - Li + x) + m g) / Ad. Source: statics. */
export function holdingPressurePa(slide: CvSlide, liftM: number): number {
  return (springForceN(slide, liftM) + slide.massKg * 9.80665) / slide.diaphragmM2;
}

/** Depression (Pa) of a volume flow (m3/s) through the port at a lift: 1/2 rho (Q / (C A))^2. Source: Bernoulli. */
export function portDepressionPa(
  slide: Pick<CvSlide, "boreM" | "clearanceM" | "discharge">,
  liftM: number,
  flowM3S: number,
  densityKgM3: number,
): number {
  const area = slidePortM2(slide.boreM, liftM + slide.clearanceM);
  return 0.5 * densityKgM3 * (flowM3S / (slide.discharge * area)) ** 2;
}

/**
 * Equilibrium lift of a constant-vacuum slide by bisection (depression falls with lift, holding pressure grows).
 * `extraPa` is depression that the diaphragm feels besides the port's: the airbox's, when vented to the atmosphere.
 * Throws OutOfRange. Source: statics, Bernoulli.
 */
export function cvBalance(slide: CvSlide, flowM3S: number, densityKgM3: number, extraPa = 0): SlideBalance {
  within("air flow", flowM3S, 0, 2, "m3/s");
  within("air density", densityKgM3, 0.2, 2, "kg/m3");
  within("extra depression", extraPa, -20_000, 100_000, "Pa");
  within("full lift", slide.liftMaxM, 1e-4, 0.1, "m");
  within("diaphragm area", slide.diaphragmM2, 5e-5, 0.05, "m2");
  within("slide mass", slide.massKg, 1e-4, 1, "kg");
  within("spring rate", slide.rateNPerM, 0, 10_000, "N/m");
  within("discharge coefficient", slide.discharge, 0.3, 1);
  const surplus = (x: number) =>
    portDepressionPa(slide, x, flowM3S, densityKgM3) + extraPa - holdingPressurePa(slide, x);
  let low = 0;
  let high = slide.liftMaxM;
  if (surplus(high) >= 0) low = high;
  else if (surplus(low) <= 0) high = low;
  else
    for (let i = 0; i < 34; i++) {
      const middle = (low + high) / 2;
      if (surplus(middle) > 0) low = middle;
      else high = middle;
    }
  const liftM = (low + high) / 2;
  return { liftM, depressionPa: portDepressionPa(slide, liftM, flowM3S, densityKgM3) };
}

/**
 * Slide rise time new over old: inverse ratio of total lift-hole area (mm diameters).
 * Source: rise time Ad dx / (C sum(A) sqrt(2 dp / rho)), everything else unchanged.
 */
export function slideRiseRatio(
  from: { readonly count: number; readonly holeMm: number },
  to: { readonly count: number; readonly holeMm: number },
): number {
  const area = (h: { count: number; holeMm: number }) =>
    within("lift holes", h.count, 0, 8) * within("lift hole", h.holeMm, 0.3, 8, "mm") ** 2;
  if (area(from) === 0 || area(to) === 0)
    throw new Refusal(
      "A slide without lift holes has no rise time to compare.",
      "Enter at least one lift hole.",
    );
  return area(from) / area(to);
}
