import { within } from "../refusal";

const EARTH_RADIUS_M = 6_356_766;
const T0_K = 288.15;
export const LAPSE_K_PER_M = 0.0065;
const EXPONENT = 5.255876;
export const STANDARD_PRESSURE_PA = 101_325;

export interface StandardAir {
  readonly temperatureK: number;
  readonly pressurePa: number;
  readonly densityKgM3: number;
}

/** Geometric to geopotential altitude, both in metres, -5000 to 85 000. Source: ISO 2533:1975. Throws OutOfRange. */
export function geopotentialM(altitudeM: number): number {
  const z = within("altitude", altitudeM, -5000, 85_000, "m");
  return (EARTH_RADIUS_M * z) / (EARTH_RADIUS_M + z);
}

/**
 * Standard air at a geopotential altitude in metres, -5000 to 11 000.
 * Source: ISO 2533:1975 = US Standard Atmosphere 1976, lowest layer. Throws OutOfRange.
 */
export function standardAirAtGeopotential(geopotentialAltitudeM: number): StandardAir {
  const h = within("geopotential altitude", geopotentialAltitudeM, -5000, 11_000, "m");
  const temperatureK = T0_K - LAPSE_K_PER_M * h;
  const pressurePa = STANDARD_PRESSURE_PA * (temperatureK / T0_K) ** EXPONENT;
  return { temperatureK, pressurePa, densityKgM3: pressurePa / (287.0531 * temperatureK) };
}

/** Standard air at a geometric altitude in metres, -4900 to 11 000. Source as above. Throws OutOfRange. */
export function standardAir(altitudeM: number): StandardAir {
  return standardAirAtGeopotential(geopotentialM(within("altitude", altitudeM, -4900, 11_000, "m")));
}

/**
 * Station pressure (Pa) from QNH (Pa) and altitude (m). QNH is the altimeter setting; the "sea-level pressure"
 * of a weather report is reduced with the real temperature and is not QNH. Source: inverse of the ICAO altimeter
 * relation in the ISO 2533 lowest layer. Throws OutOfRange.
 */
export function stationPressurePa(qnhPa: number, altitudeM: number): number {
  const qnh = within("QNH", qnhPa, 85_000, 110_000, "Pa");
  const h = geopotentialM(within("altitude", altitudeM, -500, 6000, "m"));
  const base = (qnh / STANDARD_PRESSURE_PA) ** (1 / EXPONENT) - (LAPSE_K_PER_M * h) / T0_K;
  return STANDARD_PRESSURE_PA * base ** EXPONENT;
}

/** Altitude (m) at which standard air has this density (kg/m3). Source: ISO 2533 solved for altitude. Throws OutOfRange. */
export function densityAltitudeM(densityKgM3: number): number {
  const rho = within("density", densityKgM3, 0.36, 1.9, "kg/m3");
  return (T0_K / LAPSE_K_PER_M) * (1 - (rho / 1.225) ** 0.234969);
}

/** Speed of sound in dry air (m/s) at T kelvin: sqrt(1.4 R T), R 287.0531 J/(kg K). Source: US Standard Atmosphere 1976. */
export function speedOfSoundMS(temperatureK: number): number {
  return Math.sqrt(1.4 * 287.0531 * within("temperature", temperatureK, 180, 400, "K"));
}
