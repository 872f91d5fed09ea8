import { within } from "../refusal";

/** Pressure-loss coefficient on the opening's own velocity, with the velocity head lost in the box (entry + 1). */
export const OPENING_LOSS = {
  /** Sharp hole in a wall: 1 / 0.586^2. Source: Idelchik, thin orifice. */
  wall: 2.914,
  /** Tube standing into the room: entry 0.78. Source: Crane TP-410, from memory. */
  reentrant: 1.78,
  /** Tube flush with the wall: entry 0.5. Source: Crane TP-410, from memory. */
  flush: 1.5,
} as const;

export interface Opening {
  readonly diameterMm: number;
  readonly kind: keyof typeof OPENING_LOSS;
}

/** Effective area (m2) of openings in parallel: sum of A / sqrt(K). Source: continuity at one pressure loss. */
export function effectiveOpeningM2(openings: readonly Opening[]): number {
  let sum = 0;
  for (const o of openings) {
    const d = within("opening", o.diameterMm, 0, 300, "mm") / 1000;
    sum += ((Math.PI / 4) * d * d) / Math.sqrt(OPENING_LOSS[o.kind]);
  }
  return sum;
}

/** Depression (Pa) in an airbox: 1/2 rho (Q / A_eff)^2, Q in m3/s. Throws OutOfRange, also when there is no opening. */
export function boxDepressionPa(flowM3S: number, effectiveM2: number, densityKgM3: number): number {
  within("airbox effective area", effectiveM2, 1e-6, 1, "m2");
  within("air flow", flowM3S, 0, 5, "m3/s");
  within("air density", densityKgM3, 0.2, 2, "kg/m3");
  return 0.5 * densityKgM3 * (flowM3S / effectiveM2) ** 2;
}

/** Loss of a sharp orifice in a pipe on the pipe's velocity, f = area ratio in (0, 1]. Source: Idelchik (0.707 there). */
export function pipeOrificeLoss(f: number): number {
  within("orifice area over pipe area", f, 0.02, 1);
  return (1 + Math.SQRT1_2 * Math.sqrt(1 - f) - f) ** 2 / f ** 2;
}

/** Loss of a sudden widening on the narrow side's velocity, (1 - A1/A2)^2. Source: Borda-Carnot. */
export function wideningLoss(areaRatio: number): number {
  return (1 - within("area ratio", areaRatio, 0, 1)) ** 2;
}

/** Loss of a weld ring standing `weldMm` into a pipe of `pipeMm` inside diameter, on the pipe's velocity. */
export function weldLoss(pipeMm: number, weldMm: number): number {
  const pipe = within("header pipe", pipeMm, 10, 120, "mm");
  const weld = within("header weld", weldMm, 0, pipe * 0.4, "mm");
  return pipeOrificeLoss((1 - (2 * weld) / pipe) ** 2);
}
