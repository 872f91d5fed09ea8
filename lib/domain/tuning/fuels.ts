import { Refusal, within } from "../refusal";
import type { FuelName } from "./targetTypes";

export interface Fuel {
  /** Air over fuel by mass, stoichiometric. */
  readonly stoichiometric: number;
  readonly density15KgM3: number;
}

/** Pump fuels. Source: AFRs blended by mass from gasoline 14.60 and ethanol 9.00; densities typical, judgement. */
export const FUELS: Readonly<Record<FuelName, Fuel>> = {
  E0: { stoichiometric: 14.6, density15KgM3: 745 },
  E10: { stoichiometric: 14.01, density15KgM3: 750 },
  E85: { stoichiometric: 9.8, density15KgM3: 783 },
};

/** A fuel by name. Throws Refusal for one that is not known. */
export function fuelNamed(name: string): Fuel {
  const known = Object.entries(FUELS).find(([key]) => key === name);
  if (!known)
    throw new Refusal(`The fuel "${name}" is not known.`, `Choose among ${Object.keys(FUELS).join(", ")}.`, {
      fuel: "Not a known fuel.",
    });
  return known[1];
}

/** Stoichiometric air/fuel ratio of CHy: 34.56 (4 + y) / (12.011 + 1.008 y). Source: Heywood 3.4, from memory. */
export function stoichiometricOfHydrocarbon(y: number): number {
  within("hydrogen per carbon", y, 0, 4);
  return (34.56 * (4 + y)) / (12.011 + 1.008 * y);
}

/** The same with z oxygen per carbon (alcohols): oxygen in the fuel replaces air. Source: Heywood 3.4, from memory. */
export function stoichiometricOfAlcohol(y: number, z: number): number {
  within("hydrogen per carbon", y, 0, 4);
  within("oxygen per carbon", z, 0, 2);
  return (34.56 * (4 + y - 2 * z)) / (12.011 + 1.008 * y + 15.999 * z);
}

/** Fuel density (kg/m3) at T kelvin: rho15 exp(-a D (1 + 0.8 a D)), D = T - 288.15. Source: API/ASTM D1250 gasoline form. */
export function fuelDensityKgM3(density15KgM3: number, temperatureK: number): number {
  const rho = within("fuel density", density15KgM3, 650, 850, "kg/m3");
  const d = within("fuel temperature", temperatureK, 233, 353, "K") - 288.15;
  const a = 346.4228 / rho ** 2 + 0.4388 / rho;
  return rho * Math.exp(-a * d * (1 + 0.8 * a * d));
}

/** Mean piston speed (m/s): 2 S N / 60, stroke in metres. Source: definition. */
export function pistonSpeedMS(strokeM: number, rpm: number): number {
  return (2 * within("stroke", strokeM, 0.01, 0.2, "m") * within("engine speed", rpm, 0, 25_000, "rpm")) / 60;
}

/**
 * Equivalence ratio with the same jets, now over then: phi goes as AFRs sqrt(rho_fuel rho_air) / rho_dry. Above 1 is richer.
 * Air as moist density for the signal and dry density for the oxygen; fuel temperatures in kelvin. Source: Heywood 7.2 at equal air volume.
 */
export function relativePhi(now: PhiState, then: PhiState): number {
  const phi = ({ fuel, fuelTemperatureK, densityKgM3, dryDensityKgM3 }: PhiState) => {
    const { stoichiometric, density15KgM3 } = fuelNamed(fuel);
    const air = within("air density", densityKgM3, 0.2, 2, "kg/m3");
    const dry = within("dry-air density", dryDensityKgM3, 0.2, air, "kg/m3");
    return (stoichiometric * Math.sqrt(fuelDensityKgM3(density15KgM3, fuelTemperatureK) * air)) / dry;
  };
  return phi(now) / phi(then);
}

export interface PhiState {
  readonly fuel: string;
  readonly fuelTemperatureK: number;
  readonly densityKgM3: number;
  readonly dryDensityKgM3: number;
}
