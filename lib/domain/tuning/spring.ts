import { within } from "../refusal";

/** Rate (N/m) of a helical spring: G d^4 / (8 D^3 N), metres and pascals. Source: EN 13906-1. Throws OutOfRange. */
export function springRateNPerM(wireM: number, coilM: number, coils: number, shearPa = 81.5e9): number {
  within("wire diameter", wireM, 5e-5, 0.05, "m");
  within("coil diameter", coilM, wireM * 1.5, 0.5, "m");
  within("active coils", coils, 0.5, 500);
  return (within("shear modulus", shearPa, 1e9, 2e11, "Pa") * wireM ** 4) / (8 * coilM ** 3 * coils);
}

export interface CutSpring {
  readonly rateNPerM: number;
  readonly freeM: number;
  readonly rateRatio: number;
  /** Change of force (N) at the installed length: -k0 Li (N0/N1 - 1). */
  readonly forceChangeN: number;
}

/**
 * A spring with coils cut off: rate grows as N0/N1, free length falls as N1/N0 (even pitch, ends not counted).
 * Source: EN 13906-1, identity. Throws OutOfRange, also when coils would be added.
 */
export function cutSpring(
  rateNPerM: number,
  freeM: number,
  coilRatio: number,
  installedM: number,
): CutSpring {
  within("coils left over coils before", coilRatio, 0.1, 1);
  within("spring rate", rateNPerM, 1, 10_000, "N/m");
  within("free length", freeM, 0.005, 0.4, "m");
  within("fitted length", installedM, 0.001, 0.4, "m");
  const rateRatio = 1 / coilRatio;
  return {
    rateNPerM: rateNPerM * rateRatio,
    freeM: freeM * coilRatio,
    rateRatio,
    forceChangeN: -rateNPerM * installedM * (rateRatio - 1),
  };
}
