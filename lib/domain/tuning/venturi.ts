import { Refusal, within } from "../refusal";

/** Compressible-flow factor of a venturi at a throat over upstream pressure ratio. Source: Heywood, ICE Fundamentals, 7.2. */
export function compressibleFlowFactor(pressureRatio: number, gamma = 1.4): number {
  const r = within("pressure ratio", pressureRatio, criticalPressureRatio(gamma), 1);
  if (1 - r < 1e-9) return 1;
  const flow = (gamma / (gamma - 1)) * (r ** (2 / gamma) - r ** ((gamma + 1) / gamma));
  return Math.sqrt(flow / (1 - r));
}

/** Pressure ratio at which a nozzle chokes: (2 / (g + 1))^(g / (g - 1)). Source: gas dynamics, identity. */
export function criticalPressureRatio(gamma = 1.4): number {
  return (2 / (within("heat capacity ratio", gamma, 1.05, 1.67) + 1)) ** (gamma / (gamma - 1));
}

export interface Venturi {
  readonly airDischarge: number;
  readonly fuelDischarge: number;
  readonly throatM: number;
  readonly jetM: number;
  readonly airDensityKgM3: number;
  readonly fuelDensityKgM3: number;
  /** Depression at the throat (Pa). */
  readonly depressionPa: number;
  /** Height of the fuel outlet above the level in the bowl (m). */
  readonly lipM: number;
  /** Upstream pressure (Pa) for compressible flow; absent: incompressible. */
  readonly upstreamPa?: number | undefined;
}

/**
 * Air/fuel ratio by mass of an elementary carburettor:
 * (Ca At / Cf Af) sqrt(rho_a / rho_f) sqrt(dp / (dp - rho_f g h)) Phi. Source: Heywood 7.2.
 * Throws OutOfRange; refuses a depression too weak to lift the fuel.
 */
export function venturiAirFuelRatio(v: Venturi): number {
  within("air discharge coefficient", v.airDischarge, 0.3, 1);
  within("fuel discharge coefficient", v.fuelDischarge, 0.3, 1);
  within("throat", v.throatM, 0.005, 0.1, "m");
  within("jet bore", v.jetM, 1e-4, 6e-3, "m");
  within("air density", v.airDensityKgM3, 0.2, 2, "kg/m3");
  within("fuel density", v.fuelDensityKgM3, 500, 1000, "kg/m3");
  within("throat depression", v.depressionPa, 0, 60_000, "Pa");
  if (v.upstreamPa !== undefined) within("upstream pressure", v.upstreamPa, 30_000, 300_000, "Pa");
  const lift = v.fuelDensityKgM3 * 9.80665 * within("lip", v.lipM, 0, 0.1, "m");
  if (!(v.depressionPa > lift))
    throw new Refusal(
      `A depression of ${v.depressionPa} Pa does not lift the fuel over the lip (${lift.toFixed(0)} Pa).`,
      "Check the depression and the float level.",
    );
  const phi = v.upstreamPa === undefined ? 1 : compressibleFlowFactor(1 - v.depressionPa / v.upstreamPa);
  return (
    ((v.airDischarge * v.throatM ** 2) / (v.fuelDischarge * v.jetM ** 2)) *
    Math.sqrt(v.airDensityKgM3 / v.fuelDensityKgM3) *
    Math.sqrt(v.depressionPa / (v.depressionPa - lift)) *
    phi
  );
}
