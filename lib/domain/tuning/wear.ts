import type { Reason } from "../reason";
import type { NextCheck } from "./nextCheck";
import { intervalFor, type Severity } from "./severity";
import type { WearLimit } from "./wearLimits";

/**
 * What is not measured but looked at or cleaned again and again: an operation that does it says so in its package. Breather filters are
 * cleaned with every air filter (common practice, no source), so one interval holds for both.
 */
export const WEAR_ITEMS = [
  { key: "slideGuides", name: "Slide guides" },
  { key: "filters", name: "Air filter, prefilter and breather filter" },
] as const;
export type WearItem = (typeof WEAR_ITEMS)[number]["key"];
export const WEAR_KEYS = WEAR_ITEMS.map(({ key }) => key) as [WearItem, ...WearItem[]];

/** A wear limit against what was measured: how much of the way there is gone, and in words. */
export interface WearReading {
  readonly what: string;
  readonly limit: number;
  readonly measured: number | null;
  readonly unit: string;
  /** "within", "worn" (at or past the limit), "unknown" (nothing measured). */
  readonly state: "within" | "worn" | "unknown";
  /** Why the limit is what it is for this bike; absent where it is as its card has it. */
  readonly because?: readonly Reason[];
  /** When it is looked at again; absent where nothing says so. */
  readonly next?: NextCheck;
}

/** What is due again after so many kilometres, and where each was last done. */
interface DueAgain {
  readonly what: string;
  /** Interval on the dry road, as the model card has it. */
  readonly roadKm: number;
  readonly severity: Severity | null;
  /** Kilometres on the bike; null where nobody read them. */
  readonly odometerKm: number | null;
  /** The odometer when it was done; null where that is not kept: then it counts from new. */
  readonly doneAtKm: number | null;
}

/** The kilometres since something was done against its interval, shortened by the bike's use. Source: identity; severity.ts. */
export function dueAgain({ what, roadKm, severity, odometerKm, doneAtKm }: DueAgain): WearReading {
  const { km, because } = intervalFor(roadKm, severity);
  const from = doneAtKm ?? 0;
  const road = { fact: `every ${roadKm} km on the dry road`, from: "model card" };
  const reading = wear(what, "km", km, odometerKm === null ? null : odometerKm - from, true);
  const why = because.length > 0 ? [road, ...because] : [];
  return {
    ...reading,
    ...(why.length > 0 ? { because: why } : {}),
    ...(reading.state === "within" ? { next: { atKm: from + km, because: [road, ...because] } } : {}),
  };
}

/** A reading against what a model card allows: worn beyond the limit, as its facts say it ("when wider than"). */
export function measuredWear(what: string, unit: string, limit: WearLimit, measured: number): WearReading {
  const { low, high } = limit;
  const worn = (low !== undefined && measured < low) || (high !== undefined && measured > high);
  return { what, unit, limit: low ?? high ?? 0, measured, state: worn ? "worn" : "within" };
}

/** Wear that grows towards its limit (a jet's bore, kilometres), or shrinks to it (a spring's length). Source: identity. */
export function wear(
  what: string,
  unit: string,
  limit: number,
  measured: number | null,
  grows: boolean,
): WearReading {
  const state = (at: number) => ((grows ? at >= limit : at <= limit) ? "worn" : "within");
  return { what, unit, limit, measured, state: measured === null ? "unknown" : state(measured) };
}
