import { within } from "../refusal";

const R = 8.314472;
const M_AIR = 28.96546e-3;
const M_WATER = 18.01528e-3;
const KELVIN = 273.15;

/** Saturation vapour pressure over water (Pa) at T kelvin, 223 to 373. Source: CIPM-2007, eq. A1.1. Throws OutOfRange. */
export function saturationPressurePa(temperatureK: number): number {
  const t = within("temperature", temperatureK, 223.15, 373.15, "K");
  return Math.exp(1.2378847e-5 * t * t - 1.9121316e-2 * t + 33.93711047 - 6343.1645 / t);
}

export interface MoistAir {
  readonly densityKgM3: number;
  /** Mass of dry air per volume: what carries the oxygen. */
  readonly dryDensityKgM3: number;
  readonly vapourFraction: number;
  readonly vapourPressurePa: number;
  readonly dryPressurePa: number;
  readonly compressibility: number;
  readonly enhancement: number;
  /** True inside 600 to 1100 hPa and 15 to 27 C, where the formula is certified. */
  readonly certified: boolean;
}

/**
 * Moist air from pressure (Pa), temperature (K) and relative humidity (0 to 1).
 * Source: CIPM-2007, Picard et al., Metrologia 45 (2008) 149, with its xCO2 0.0004 molar mass. Throws OutOfRange.
 */
export function moistAir(pressurePa: number, temperatureK: number, humidity: number): MoistAir {
  const p = within("pressure", pressurePa, 40_000, 115_000, "Pa");
  const T = within("temperature", temperatureK, 233.15, 333.15, "K");
  const h = within("relative humidity", humidity, 0, 1);
  const t = T - KELVIN;
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  const xv = (h * enhancement * saturationPressurePa(T)) / p;
  const z = compressibility(p, T, t, xv);
  const densityKgM3 = ((p * M_AIR) / (z * R * T)) * (1 - xv * (1 - M_WATER / M_AIR));
  return {
    densityKgM3,
    dryDensityKgM3: ((p * M_AIR) / (z * R * T)) * (1 - xv),
    vapourFraction: xv,
    vapourPressurePa: xv * p,
    dryPressurePa: (1 - xv) * p,
    compressibility: z,
    enhancement,
    certified: p >= 60_000 && p <= 110_000 && t >= 15 && t <= 27,
  };
}

function compressibility(p: number, T: number, t: number, xv: number): number {
  const linear =
    1.58123e-6 -
    2.9331e-8 * t +
    1.1043e-10 * t * t +
    (5.707e-6 - 2.051e-8 * t) * xv +
    (1.9898e-4 - 2.376e-6 * t) * xv * xv;
  return 1 - (p / T) * linear + (p / T) ** 2 * (1.83e-11 - 0.765e-8 * xv * xv);
}

/**
 * Relative humidity (0 to 1) from dew point and temperature, both kelvin.
 * Source: ratio of CIPM-2007 saturation pressures (the enhancement factor cancels within 0.1 %).
 */
export function humidityFromDewPoint(dewPointK: number, temperatureK: number): number {
  within("dew point", dewPointK, 223.15, temperatureK, "K");
  return saturationPressurePa(dewPointK) / saturationPressurePa(temperatureK);
}
