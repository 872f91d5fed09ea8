import { product, quotient, sumOf } from "../money/exact";
import { roundHalfAway } from "../money/round";
import type { MarkupBand } from "./facts";

/**
 * The band that a part's unit cost (E4) falls in: the lowest `upToE4` that is not below the cost, else the open band.
 * Null where no band reaches that far. The order of the bands does not matter.
 */
export function markupBand(bands: readonly MarkupBand[], unitCostE4: number): MarkupBand | null {
  const reaching = bands.filter((b) => b.upToE4 === null || b.upToE4 >= unitCostE4);
  const height = (b: MarkupBand) => b.upToE4 ?? Number.POSITIVE_INFINITY;
  return reaching.reduce<MarkupBand | null>(
    (best, b) => (best && height(best) <= height(b) ? best : b),
    null,
  );
}

/**
 * Unit price (E4) from a unit cost without tax (E4), a markup and, for shops that show prices with tax, the rate;
 * rounded once, half away from zero, to a ten-thousandth of the major unit.
 */
export function markedUp(unitCostE4: number, markupBp: number, taxWithinBp: number): number {
  const factor = product(10_000 + markupBp, sumOf([10_000, taxWithinBp]));
  return roundHalfAway(quotient(product(unitCostE4, factor), 100_000_000));
}
