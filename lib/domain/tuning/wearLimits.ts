import type { KeptFact } from "./modelCardFacts";
import { needleOf } from "./modelCardFacts";
import { diameterBelow } from "./needlePoints";

/** A limit that a reading is held against, and where it comes from. */
export interface WearLimit {
  readonly low?: number;
  readonly high?: number;
  readonly from: string;
}

const CARD = "model card";

/** Facts of a model card that limits are made of. */
export const LIMIT_FACTS = [
  "needleWearMm",
  "needleJetWearMm",
  "needleJetOvalMm",
  "guidePlayMaxMm",
  "springFreeMinMm",
  "needleStraightMm",
  "needleStraightLiftMm",
  "needleStraightLengthMm",
  ...[1, 2, 3].flatMap((at) => [`needleTaper${at}LengthMm`, `needleTaper${at}Deg`]),
] as const;

/**
 * The wear limit of something measured, from the facts of its model card; null where the card sets none. A needle is worn when it is
 * thinner than delivered at that station (mm below the shoulder; null: on the straight part) by more than the card's figure. A diaphragm that
 * lets light through is renewed. Sources: the card; for the diaphragm common practice.
 */
export function wearLimit(
  measures: string,
  station: number | null,
  facts: readonly KeptFact[],
): WearLimit | null {
  const fact = (key: string) => facts.find((one) => one.key === key)?.value ?? null;
  const upTo = (high: number | null) => (high === null ? null : { high, from: CARD });
  switch (measures) {
    case "needleJetBoreMm":
      return upTo(fact("needleJetWearMm"));
    case "needleJetOvalityMm":
      return upTo(fact("needleJetOvalMm"));
    case "guidePlayMm":
      return upTo(fact("guidePlayMaxMm"));
    case "diaphragmLights":
      return { high: 0, from: "common practice" };
    case "springLengthMm": {
      const low = fact("springFreeMinMm");
      return low === null ? null : { low, from: CARD };
    }
    case "needleMm": {
      const delivered = deliveredNeedleMm(station, facts);
      const worn = fact("needleWearMm");
      return delivered === null || worn === null
        ? null
        : { low: Number((delivered - worn).toFixed(4)), from: CARD };
    }
    default:
      return null;
  }
}

/** The needle's delivered diameter (mm) at a station; null where the card does not know its shape that far. */
function deliveredNeedleMm(station: number | null, facts: readonly KeptFact[]): number | null {
  const fact = (key: string) => facts.find((one) => one.key === key)?.value ?? null;
  const straight = fact("needleStraightLengthMm");
  if (station === null || (straight !== null && station <= straight)) return fact("needleStraightMm");
  const needle = needleOf(facts)?.value;
  const tapers = needle?.tapers.reduce((sum, taper) => sum + taper.lengthMm, 0) ?? 0;
  if (!needle || straight === null || station > straight + tapers) return null;
  return diameterBelow(needle, station);
}

/** The stricter of a hold point's own limits and those of its model card, and whose it is where the card is stricter. */
export function heldAgainst(
  own: { readonly low: number | null; readonly high: number | null },
  limit: WearLimit | null,
): { low: number | null; high: number | null; from: string } {
  const low = limit?.low !== undefined && (own.low === null || limit.low > own.low) ? limit.low : null;
  const high = limit?.high !== undefined && (own.high === null || limit.high < own.high) ? limit.high : null;
  return {
    low: low ?? own.low,
    high: high ?? own.high,
    from: low === null && high === null ? "" : (limit?.from ?? ""),
  };
}
