import type { WearLimit } from "./wearLimits";

/** Parts whose wear is not measured but looked at, again and again: an operation that inspects one says so in its package. */
export const WEAR_ITEMS = [{ key: "slideGuides", name: "Slide guides" }] as const;
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
