import type { Firmness, Reason } from "../reason";
import { within } from "../refusal";

/** Fuel per work at full load on a rich mixture, in grams per kilowatt hour: what is taken, and the range it stands for. */
const BSFC_FULL_LOAD = { low: 270, taken: 330, high: 400 } as const;
/** Density of petrol in grams per millilitre: the middle of what EN 228 allows at 15 °C, 0.720 to 0.775. */
const PETROL_G_PER_ML = { low: 0.72, taken: 0.7475, high: 0.775 } as const;
/** So much more than the need is called enough: a hot day, a low tank, a filter half way to its cleaning. Common practice, no source. */
const RESERVE = 1.5;

export interface FuelNeed {
  /** Millilitres a minute at full load: the least, the taken and the most of the ranges. */
  readonly lowMl: number;
  readonly needMl: number;
  readonly highMl: number;
  readonly firmness: Firmness;
  readonly because: readonly Reason[];
}

/**
 * What an engine burns at full load, in ml a minute: power times brake specific fuel consumption, by the fuel's density. `powerKw`
 * is 0.5 to 300. Sources: definition of BSFC and its size for spark-ignition engines, Heywood, Internal Combustion Engine
 * Fundamentals, 2.7 and 15 (from memory: about 270 g/kWh at best, 300 to 400 rich at full load); EN 228 for the density.
 */
export function fuelNeed(powerKw: number): FuelNeed {
  const kw = within("power", powerKw, 0.5, 300);
  const ml = (bsfc: number, density: number) => (kw * bsfc) / 60 / density;
  const needMl = ml(BSFC_FULL_LOAD.taken, PETROL_G_PER_ML.taken);
  return {
    lowMl: ml(BSFC_FULL_LOAD.low, PETROL_G_PER_ML.high),
    needMl,
    highMl: ml(BSFC_FULL_LOAD.high, PETROL_G_PER_ML.low),
    firmness: "starting point",
    because: [
      { fact: `${kw} kW at full load`, from: "entered" },
      {
        fact: `${BSFC_FULL_LOAD.taken} g/kWh, ${BSFC_FULL_LOAD.low} to ${BSFC_FULL_LOAD.high}`,
        from: "Heywood, Internal Combustion Engine Fundamentals, from memory",
      },
      {
        fact: `${PETROL_G_PER_ML.taken} g/ml, ${PETROL_G_PER_ML.low} to ${PETROL_G_PER_ML.high}`,
        from: "EN 228 at 15 °C",
        effect: `${Math.round(needMl)} ml a minute`,
      },
    ],
  };
}

export type FlowState = "enough" | "just enough" | "too little";

/** A fuel line measured at the float valve: so many millilitres in so many seconds. */
export interface FlowTaken {
  readonly ml: number;
  readonly seconds: number;
}

export interface FlowFound {
  readonly mlPerMinute: number;
  /** Flow over need. */
  readonly ratio: number;
  readonly state: FlowState;
}

/**
 * A measured flow beside the need: enough from half as much again (common practice, no source), too little below the need. `ml` is
 * 1 to 20,000, `seconds` 5 to 600.
 */
export function flowFound({ ml, seconds }: FlowTaken, { needMl }: FuelNeed): FlowFound {
  const mlPerMinute = (within("fuel", ml, 1, 20_000) * 60) / within("seconds of the test", seconds, 5, 600);
  const ratio = mlPerMinute / needMl;
  return { mlPerMinute, ratio, state: ratio < 1 ? "too little" : ratio < RESERVE ? "just enough" : "enough" };
}

/**
 * What two tests say, one with strainer and filter in the line and one without: which of them holds the fuel back, and whether a
 * finer filter can be had. Their loss is as their flows' squares, since the same head drives both (identity for turbulent loss).
 */
export function filterAdvice(withFilter: FlowFound, without: FlowFound): { share: number; advice: string } {
  const share = Math.max(0, 1 - (withFilter.mlPerMinute / without.mlPerMinute) ** 2);
  if (without.state === "too little")
    return {
      share,
      advice:
        "The line is too narrow without the filter already: tap, hose, tank breather and strainer first.",
    };
  if (withFilter.state === "too little")
    return { share, advice: "The filter holds back too much: clean it, or take a coarser or a larger one." };
  if (withFilter.state === "just enough")
    return {
      share,
      advice: "Enough now, and not once the filter is dirty: a larger one, or cleaned more often.",
    };
  return {
    share,
    advice: "Enough with the filter in: it may stay, or a finer one be tried and measured again.",
  };
}
