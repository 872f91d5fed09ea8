import { type Reason, VERIFY } from "../reason";
import { onStep } from "./changes";
import { errorOver, type Stations } from "./solve";
import type { Resolved } from "./station";
import type { ModelCardFacts, NeedleShape, SettingValues, TargetSetting } from "./targetTypes";

export interface ScrewTask {
  readonly r: Resolved;
  readonly stations: Stations;
  readonly values: SettingValues;
  readonly needle: NeedleShape;
  readonly found: SettingValues;
  readonly card: ModelCardFacts;
  readonly freer: boolean;
}

/** A freer-breathing engine's screw starts about this much further out, and moves about this far by weather. Common practice. */
const FREER_TURNS = 0.25;
const REACH_TURNS = 0.5;

/**
 * Mixture screw to start from, turns out: the model's answer to air and pilot jet, plus a quarter turn after freer
 * breathing, kept within half a turn of where it stood (common practice). Null when its position is unknown.
 */
export function screwStart(t: ScrewTask): TargetSetting | null {
  const from = t.found.mixtureScrewTurns ?? t.card.deliveredScrewTurns?.value;
  if (from === undefined) return null;
  const low = Math.max(0, from - REACH_TURNS);
  const high = from + REACH_TURNS;
  const error = (turns: number) =>
    errorOver(t.r, t.stations.pilotJet, { ...t.values, mixtureScrewTurns: turns }, t.needle);
  const model = searched(error, low, high);
  const wanted = model + (t.freer ? FREER_TURNS : 0);
  const value = onStep("mixtureScrewTurns", Math.min(high, wanted));
  const because: Reason[] = [
    {
      fact: `Stood at ${from} turns out`,
      from: t.found.mixtureScrewTurns === undefined ? "model card" : "as found",
    },
    {
      fact: `Air and pilot jet ask for ${model.toFixed(2)} turns`,
      from: "fuel model",
      effect: `${model - from >= 0 ? "+" : ""}${(model - from).toFixed(2)} turns`,
    },
  ];
  if (t.freer)
    because.push({
      fact: "Freer breathing",
      from: "common practice",
      effect: "about a quarter turn further out",
    });
  if (wanted > high)
    because.push({
      fact: "Kept within half a turn",
      from: "common practice",
      effect: "a pilot jet is nearer the need",
    });
  because.push({ fact: VERIFY, from: "judgement" });
  return { key: "mixtureScrewTurns", value, from, how: "computed", because, firmness: "starting point" };
}

/** Where richness is right, by bisection; where it is nowhere in between, the nearer end to a millionth of a turn. */
function searched(error: (turns: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  for (let i = 0; i < 20; i++) {
    const middle = (a + b) / 2;
    if (error(middle) < 0) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}
