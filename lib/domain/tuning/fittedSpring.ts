import type { DescribedPart } from "./describedParts";

/** A slide spring that somebody described, where that says more than the sheet's length and coils. Lengths in mm. */
export interface FittedSpring {
  readonly freeMm: number;
  /** Active coils; null where nobody counted them. */
  readonly coils: number | null;
  /** Null where nobody measured it: the model card's stands in. */
  readonly rateNPerM: number | null;
  /** True of another spring than the delivered one: without a rate of its own, the delivered one's is a guess. */
  readonly exchanged: boolean;
}

/**
 * The spring of a carburettor as the fuel model takes it; undefined where none is described, or it was cut and not measured: then
 * length and coils on the sheet tell it (springCut.ts).
 */
export function fittedSpring(parts: readonly DescribedPart[] | undefined): FittedSpring | undefined {
  const spring = parts?.find((part) => part.kind === "spring");
  if (!spring || (spring.change === "cut" && spring.rateNPerM === null)) return undefined;
  const { freeMm, coils, rateNPerM, change } = spring;
  return { freeMm, coils, rateNPerM, exchanged: change === "exchanged" };
}
