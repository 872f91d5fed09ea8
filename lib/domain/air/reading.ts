import type { Reason } from "../reason";
import { Refusal, within } from "../refusal";
import { stationPressurePa } from "./isa";
import { humidityFromDewPoint } from "./moist";

export const KELVIN = 273.15;

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

/** Station pressure (Pa) of a reading, with where it comes from. Refuses none, two, or QNH without altitude. */
export function pressureOf(r: WeatherReading): { value: number; reason: Reason } {
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

/** Relative humidity (0 to 1) of a reading at its temperature (C). Refuses none or two. */
export function humidityOf(r: WeatherReading, temperatureC: number): { value: number; reason: Reason } {
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
