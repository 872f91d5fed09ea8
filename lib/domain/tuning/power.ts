import type { Reason } from "../reason";
import { Refusal, within } from "../refusal";

export type PowerStandard = "EU 134/2014" | "ISO 1585" | "SAE J1349" | "DIN 70020";

export interface PowerFactor {
  readonly factor: number;
  /** False when the standard does not allow correcting this far: state the conditions instead. */
  readonly allowed: boolean;
  readonly because: readonly Reason[];
}

/** Air during a dyno run. DIN 70020 uses total pressure, the others dry pressure. */
export interface RunAir {
  readonly dryPressurePa: number;
  readonly pressurePa: number;
  readonly temperatureK: number;
}

/**
 * Factor that brings measured power to a standard's reference air. Sources: EU 134/2014 App. 2.2 (motorcycles, default);
 * ISO 1585 the same form, limits from memory; SAE J1349 (2004), limits from memory; DIN 70020 (old) from memory.
 * Refuses another standard and dry pressure above the whole. Throws OutOfRange outside 60-110 kPa and 250-330 K.
 */
export function powerFactor(air: RunAir, standard: PowerStandard = "EU 134/2014"): PowerFactor {
  const pd = within("dry pressure", air.dryPressurePa, 60_000, 110_000, "Pa") / 1000;
  const p = within("pressure", air.pressurePa, 60_000, 110_000, "Pa") / 1000;
  const t = within("temperature", air.temperatureK, 250, 330, "K");
  if (pd > p)
    throw new Refusal(
      `The dry pressure of ${(pd * 10).toFixed(1)} hPa is above the whole pressure of ${(p * 10).toFixed(1)} hPa.`,
      "Take the vapour's share off the pressure, not the other way round.",
    );
  const european = (99 / pd) ** 1.2 * (t / 298) ** 0.6;
  switch (standard) {
    case "EU 134/2014":
      return said(european, t >= 283.2 && t <= 318.2, "EU 134/2014 App. 2.2", "283.2 to 318.2 K");
    case "ISO 1585":
      return said(
        european,
        european >= 0.93 && european <= 1.07,
        "ISO 1585, limits not checked against the published text",
        "0.93 to 1.07",
      );
    case "SAE J1349": {
      const factor = ((99 / pd) * Math.sqrt(t / 298)) / 0.85 - (1 / 0.85 - 1);
      return said(
        factor,
        factor >= 0.93 && factor <= 1.07,
        "SAE J1349 (2004), limits not checked against the published text",
        "0.93 to 1.07",
      );
    }
    case "DIN 70020":
      return said(
        (101.3 / p) * Math.sqrt(t / 293),
        true,
        "DIN 70020 (old), not checked against the published text",
        "no limits known",
      );
    default:
      throw new Refusal(
        `The power standard "${String(standard)}" is not known.`,
        "Choose EU 134/2014, ISO 1585, SAE J1349 or DIN 70020.",
      );
  }
}

function said(factor: number, allowed: boolean, from: string, limits: string): PowerFactor {
  return {
    factor,
    allowed,
    because: [
      { fact: `Power x ${factor.toFixed(4)}`, from },
      ...(allowed
        ? []
        : [{ fact: `Outside ${limits}`, from, effect: "state the conditions with the power" }]),
    ],
  };
}
