import type { Firmness, Reason } from "../reason";
import { Refusal, within } from "../refusal";
import { densityAltitudeM, STANDARD_PRESSURE_PA, stationPressurePa } from "./isa";
import { humidityFromDewPoint, type MoistAir, moistAir } from "./moist";

const KELVIN = 273.15;

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

/** Weather as a person reads it: one pressure (station, or QNH with altitude) and one humidity (relative, or dew point). */
export interface WeatherReading {
  readonly stationPa?: number | undefined;
  readonly qnhPa?: number | undefined;
  readonly altitudeM?: number | undefined;
  readonly temperatureC: number;
  /** 0 to 1. */
  readonly humidity?: number | undefined;
  readonly dewPointC?: number | undefined;
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

function pressureOf(r: WeatherReading): { value: number; reason: Reason } {
  if (r.stationPa !== undefined && r.qnhPa !== undefined)
    throw new Refusal("Both station pressure and QNH are given.", "Keep the one that was read.", {
      qnhPa: "Leave this or station pressure empty.",
    });
  if (r.stationPa !== undefined)
    return {
      value: r.stationPa,
      reason: { fact: `Station pressure ${(r.stationPa / 100).toFixed(1)} hPa`, from: "weather reading" },
    };
  if (r.qnhPa === undefined)
    throw new Refusal(
      "No pressure is given.",
      'Enter station pressure, or QNH and altitude. A report\'s "sea-level pressure" is not QNH.',
      { stationPa: "Enter this, or QNH." },
    );
  if (r.altitudeM === undefined)
    throw new Refusal("QNH is given without an altitude.", "Enter the altitude of the place.", {
      altitudeM: "Needed with QNH.",
    });
  return {
    value: stationPressurePa(r.qnhPa, r.altitudeM),
    reason: {
      fact: `QNH ${(r.qnhPa / 100).toFixed(1)} hPa at ${Math.round(r.altitudeM)} m`,
      from: "weather reading, brought to the station by ISO 2533",
    },
  };
}

function humidityOf(r: WeatherReading, temperatureC: number): { value: number; reason: Reason } {
  if ((r.humidity === undefined) === (r.dewPointC === undefined))
    throw new Refusal(
      r.humidity === undefined ? "No humidity is given." : "Both humidity and dew point are given.",
      "Enter relative humidity or dew point, one of them.",
      { humidity: "Enter this or the dew point." },
    );
  if (r.humidity !== undefined)
    return {
      value: r.humidity,
      reason: { fact: `Relative humidity ${Math.round(r.humidity * 100)} %`, from: "weather reading" },
    };
  const dew = within("dew point", r.dewPointC ?? Number.NaN, -50, temperatureC, "C");
  return {
    value: humidityFromDewPoint(dew + KELVIN, temperatureC + KELVIN),
    reason: { fact: `Dew point ${dew.toFixed(1)} C`, from: "weather reading" },
  };
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
