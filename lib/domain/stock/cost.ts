import Decimal from "decimal.js";
import { Refusal } from "../refusal";
import { applyMove, EMPTY_STOCK, moveValueE4, type StockMove, type StockState, worthE4 } from "./moves";

export interface CostedLedger {
  readonly onHandMilli: number;
  /** Worth of what is left, in ten-thousandths of the major currency unit. */
  readonly valueE4: number;
  /** Cost of all that went out, same scale. */
  readonly outE4: number;
}

/** A whole ledger at moving weighted average cost (IAS 2.25, 2.27). Refuses what `applyMove` refuses. */
export function movingAverage(moves: readonly StockMove[]): CostedLedger & StockState {
  let state = EMPTY_STOCK;
  let outE4 = 0;
  for (const move of moves) {
    if (move.quantityMilli < 0 && move.kind !== "betweenBins") outE4 -= moveValueE4(state, move);
    state = applyMove(state, move);
  }
  return { ...state, outE4 };
}

/** What came in at one cost and is still there. */
export interface Layer {
  readonly quantityMilli: number;
  readonly valueE4: number;
}

/**
 * A whole ledger first in, first out (IAS 2.25, 2.27). A costless arrival takes the cost of the newest layer that was
 * there, or of the last one that left. Refuses what `applyMove` refuses.
 */
export function firstInFirstOut(
  moves: readonly StockMove[],
): CostedLedger & { readonly layers: readonly Layer[] } {
  const layers: Layer[] = [];
  let checked = EMPTY_STOCK;
  let outE4 = 0;
  let newestE4 = 0;
  for (const move of moves) {
    checked = applyMove(checked, move);
    if (move.kind === "betweenBins") continue;
    if (move.quantityMilli > 0) {
      newestE4 = move.unitCostE4 ?? newestE4;
      layers.push({ quantityMilli: move.quantityMilli, valueE4: worthE4(move.quantityMilli, newestE4) });
      continue;
    }
    for (let left = -move.quantityMilli; left > 0; ) {
      const oldest = layers.shift();
      if (!oldest) throw new Error("the layers hold less than the ledger");
      const taken = Math.min(left, oldest.quantityMilli);
      const worth =
        taken === oldest.quantityMilli ? oldest.valueE4 : share(oldest.valueE4, taken, oldest.quantityMilli);
      if (taken < oldest.quantityMilli)
        layers.unshift({ quantityMilli: oldest.quantityMilli - taken, valueE4: oldest.valueE4 - worth });
      outE4 += worth;
      left -= taken;
    }
  }
  return {
    onHandMilli: checked.onHandMilli,
    valueE4: layers.reduce((sum, layer) => sum + layer.valueE4, 0),
    outE4,
    layers,
  };
}

/** Average cost of one unit over all that came in during a period, in ten-thousandths; not rounded. Refuses a period without arrivals. */
export function periodicAverageE4(moves: readonly StockMove[]): number {
  const arrivals = moves.filter(
    (move) => move.quantityMilli > 0 && move.unitCostE4 !== null && move.kind !== "betweenBins",
  );
  const quantity = arrivals.reduce((sum, move) => sum.plus(move.quantityMilli), new Decimal(0));
  if (quantity.isZero())
    throw new Refusal(
      "Nothing came in during this period, so it has no average cost.",
      "Choose a longer period.",
    );
  const value = arrivals.reduce(
    (sum, move) => sum.plus(new Decimal(move.quantityMilli).times(move.unitCostE4 ?? 0)),
    new Decimal(0),
  );
  return value.div(quantity).toNumber();
}

function share(valueE4: number, part: number, whole: number): number {
  return new Decimal(valueE4).times(part).div(whole).toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
}
