import type { Reason } from "../reason";
import { within } from "../refusal";
import { KELVIN } from "./reading";
import { type Air, buildAir } from "./weather";

/** What somebody typed of an air; null: nothing, then the typical value stands. */
export interface TypedAir {
  readonly pressurePa?: number | null | undefined;
  readonly temperatureC?: number | null | undefined;
  /** 0 to 1. */
  readonly humidity?: number | null | undefined;
}

/** One-sigma of density with a typed temperature but no pressure, and with a typed pressure but no temperature. Judgement. */
const NO_PRESSURE = 0.02;
const NO_TEMPERATURE = 0.025;

/**
 * Typical air with what was typed put over it: a typed temperature, pressure or humidity always wins, and the reasons say so.
 * Measured once pressure and temperature are both typed; else still assumed. Throws OutOfRange. Source: CIPM-2007.
 */
export function airWith(typical: Air, typed: TypedAir): Air {
  const { pressurePa, temperatureC, humidity } = typed;
  const said: Reason[] = [];
  const over = (name: string, text: string, was: string) =>
    said.push({
      fact: `${name} ${text}`,
      from: "entered: it wins over the typical one",
      effect: `typical ${was}`,
    });
  if (pressurePa != null)
    over("Pressure", `${(pressurePa / 100).toFixed(1)} hPa`, `${(typical.pressurePa / 100).toFixed(0)} hPa`);
  if (temperatureC != null)
    over(
      "Temperature",
      `${within("temperature", temperatureC, -40, 60, "C").toFixed(1)} C`,
      `${(typical.temperatureK - KELVIN).toFixed(0)} C`,
    );
  if (humidity != null)
    over("Relative humidity", `${Math.round(humidity * 100)} %`, `${Math.round(typical.humidity * 100)} %`);
  if (said.length === 0) return typical;
  const measured = pressurePa != null && temperatureC != null;
  const sigma = measured
    ? 0.005
    : temperatureC != null
      ? NO_PRESSURE
      : pressurePa != null
        ? NO_TEMPERATURE
        : typical.sigma;
  return buildAir(
    pressurePa ?? typical.pressurePa,
    temperatureC == null ? typical.temperatureK : temperatureC + KELVIN,
    humidity ?? typical.humidity,
    !measured && typical.assumed,
    sigma,
    [...said, ...(measured ? [] : typical.because)],
  );
}
