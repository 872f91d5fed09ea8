import Decimal from "decimal.js";
import { Refusal } from "../refusal";
import type { StockMove } from "./moves";

export interface SplitPiece {
  readonly code: string;
  readonly quantityMilli: number;
  /** Share of the assortment's worth against the other pieces, for one unit; 1 for all when they are alike. */
  readonly weight: number;
}

/**
 * Opening an assortment into its pieces: one move out of the assortment and one into each piece, whose unit costs share the
 * assortment's worth by weight (ten-thousandths of the major unit, rounded half away from zero; what rounding leaves over stays
 * below half a ten-thousandth for each piece). Refuses an assortment of nothing and pieces without weight.
 */
export function splitMoves(
  assortment: { quantityMilli: number; unitCostE4: number },
  pieces: readonly SplitPiece[],
): {
  readonly out: StockMove;
  readonly into: readonly { readonly code: string; readonly move: StockMove }[];
} {
  const weights = pieces.reduce(
    (sum, piece) => sum.plus(new Decimal(piece.weight).times(piece.quantityMilli)),
    new Decimal(0),
  );
  if (
    assortment.quantityMilli <= 0 ||
    pieces.some((piece) => piece.quantityMilli <= 0 || piece.weight < 0) ||
    weights.lte(0)
  )
    throw new Refusal(
      "An assortment is opened into at least one piece, each with a quantity.",
      "Enter what was in it.",
    );
  const worth = new Decimal(assortment.quantityMilli).times(assortment.unitCostE4);
  return {
    out: { kind: "split", quantityMilli: -assortment.quantityMilli, unitCostE4: assortment.unitCostE4 },
    into: pieces.map(({ code, quantityMilli, weight }) => {
      const unitCostE4 = worth
        .times(weight)
        .div(weights)
        .toDecimalPlaces(0, Decimal.ROUND_HALF_UP)
        .toNumber();
      return { code, move: { kind: "split", quantityMilli, unitCostE4 } };
    }),
  };
}
