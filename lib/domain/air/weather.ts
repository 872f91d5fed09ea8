import type { Firmness, Reason } from "../reason";
import { within } from "../refusal";
import { densityAltitudeM, STANDARD_PRESSURE_PA } from "./isa";
import { type MoistAir, moistAir } from "./moist";
import { humidityOf, KELVIN, pressureOf, type WeatherReading } from "./reading";

export type { WeatherReading } from "./reading";

/** Air that a calculation runs in, with where each of its numbers comes from. */
export interface Air extends MoistAir {
  readonly pressurePa: number;
  readonly temperatureK: number;
  /** Relative humidity, 0 to 1. */
  readonly humidity: number;
  readonly densityAltitudeM: number;
  /** True when nobody measured it: typical for a month and an altitude. */
  readonly assumed: boolean;
  /** Fractional one-sigma of the dry density. */
  readonly sigma: number;
  readonly because: readonly Reason[];
  readonly firmness: Firmness;
}

/**
 * Air from a weather reading. Throws Refusal when pressure or humidity is missing or given twice, OutOfRange
 * outside -40..60 C. A report's "sea-level pressure" is neither station pressure nor QNH and is not accepted.
 */
export function airFromReading(reading: WeatherReading): Air {
  const temperatureC = within("temperature", reading.temperatureC, -40, 60, "C");
  const pressure = pressureOf(reading);
  const humidity = humidityOf(reading, temperatureC);
  return buildAir(pressure.value, temperatureC + KELVIN, humidity.value, false, 0.003, [
    pressure.reason,
    { fact: `Temperature ${temperatureC.toFixed(1)} C`, from: "weather reading" },
    humidity.reason,
  ]);
}

/** Air from SI numbers (Pa, K, 0 to 1), with given reasons and fractional sigma. Throws OutOfRange. Source: CIPM-2007. */
export function buildAir(
  pressurePa: number,
  temperatureK: number,
  humidity: number,
  assumed: boolean,
  sigma: number,
  because: readonly Reason[],
): Air {
  const moist = moistAir(pressurePa, temperatureK, humidity);
  const edge: Reason[] = moist.certified
    ? []
    : [
        {
          fact: "Outside 600-1100 hPa, 15-27 C",
          from: "CIPM-2007",
          effect: "formula used beyond its certified range",
        },
      ];
  return {
    ...moist,
    pressurePa,
    temperatureK,
    humidity,
    densityAltitudeM: densityAltitudeM(moist.densityKgM3),
    assumed,
    sigma,
    because: [...because, ...edge],
    firmness: assumed ? "starting point" : "firm",
  };
}

/** 20 C, dry, 101 325 Pa: the air that jet charts and benches are usually quoted for. Source: common practice. */
export const STANDARD_BENCH_AIR: Air = buildAir(STANDARD_PRESSURE_PA, 293.15, 0, false, 0, [
  { fact: "20 C, dry, 1013.25 hPa", from: "common practice" },
]);

/** Oxygen-carrying density of `air` relative to `to`: ratio of dry-air densities. Source: dry oxygen basis, identity. */
export function relativeAirDensity(air: Air, to: Air = STANDARD_BENCH_AIR): number {
  return air.dryDensityKgM3 / to.dryDensityKgM3;
}
