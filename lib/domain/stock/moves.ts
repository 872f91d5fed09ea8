import Decimal from "decimal.js";
import { Refusal } from "../refusal";

/**
 * The kinds of stock move; "count", "split" and "betweenBins" may go either way, the others only in or only out. Moves
 * between bins come in pairs that add up to nothing, and are worth nothing: no cost sees them.
 */
export type MoveKind =
  | "opening"
  | "receipt"
  | "use"
  | "returnToStock"
  | "returnToSupplier"
  | "count"
  | "scrap"
  | "split"
  | "betweenBins";

export interface StockMove {
  readonly kind: MoveKind;
  /** Signed thousandths of the part's unit. */
  readonly quantityMilli: number;
  /** Cost of one unit in ten-thousandths of the major currency unit; null: at the present average. */
  readonly unitCostE4: number | null;
}

/** Stock of one part: what is there and what it is worth. */
export interface StockState {
  readonly onHandMilli: number;
  /** Worth of all of it in ten-thousandths of the major currency unit. */
  readonly valueE4: number;
  /** Cost of one unit when it was last known; what the next costless arrival into an empty bin is worth. */
  readonly averageE4: number;
}

export const EMPTY_STOCK: StockState = { onHandMilli: 0, valueE4: 0, averageE4: 0 };

const DIRECTION: Readonly<Record<MoveKind, 1 | -1 | 0>> = {
  opening: 1,
  receipt: 1,
  use: -1,
  returnToStock: 1,
  returnToSupplier: -1,
  count: 0,
  scrap: -1,
  split: 0,
  betweenBins: 0,
};

/** Moves summed: thousandths on hand. */
export function onHand(moves: readonly Pick<StockMove, "quantityMilli">[]): number {
  return moves.reduce((sum, move) => sum + move.quantityMilli, 0);
}

/**
 * Stock after a move, at moving weighted average cost (allowed by IAS 2 Inventories, paragraphs 25 and 27). What comes in adds
 * its own cost; what goes out takes its share of the worth, rounded half away from zero, and the last unit takes what is left.
 * A move between bins changes neither. Refuses a move of nothing, one in the wrong direction for its kind, and one that would leave less than nothing.
 */
export function applyMove(state: StockState, move: StockMove): StockState {
  const { kind, quantityMilli } = move;
  if (!Number.isSafeInteger(quantityMilli) || quantityMilli === 0)
    throw new Refusal(
      "A stock move needs a quantity other than nothing, in whole thousandths.",
      "Enter the quantity moved.",
    );
  if (DIRECTION[kind] * quantityMilli < 0)
    throw new Refusal(
      `A move of the kind “${kind}” cannot go ${quantityMilli > 0 ? "in" : "out"}.`,
      "Choose the kind of move again.",
    );
  if (kind === "betweenBins") return state;
  const after = state.onHandMilli + quantityMilli;
  if (after < 0)
    throw new Refusal(
      `Only ${state.onHandMilli / 1000} on hand, and ${-quantityMilli / 1000} asked for.`,
      "Take less, or count the bin if there is more in it.",
      {},
      "conflict",
    );
  const valueE4 = after === 0 ? 0 : state.valueE4 + moveValueE4(state, move);
  return {
    onHandMilli: after,
    valueE4,
    averageE4: after === 0 ? leavingAverage(state) : averageOf(valueE4, after),
  };
}

/** Signed worth of a move in ten-thousandths of the major unit: what it adds to stock, or takes as cost of the work. */
export function moveValueE4(state: StockState, move: StockMove): number {
  const { quantityMilli, unitCostE4 } = move;
  if (quantityMilli > 0) return worthE4(quantityMilli, unitCostE4 ?? state.averageE4);
  if (state.onHandMilli + quantityMilli === 0) return -state.valueE4;
  return rounded(new Decimal(state.valueE4).times(quantityMilli).div(state.onHandMilli));
}

/** Worth of a quantity (thousandths) at a unit cost (ten-thousandths), in ten-thousandths. */
export function worthE4(quantityMilli: number, unitCostE4: number): number {
  const product = quantityMilli * unitCostE4;
  const above = Math.abs(product) + 500;
  // Ledgers of many thousand moves are valued, and decimals take long. Without a remainder the division is exact.
  if (Number.isSafeInteger(above)) return Math.sign(product) * ((above - (above % 1000)) / 1000);
  return rounded(new Decimal(quantityMilli).times(unitCostE4).div(1000));
}

const leavingAverage = (state: StockState) =>
  state.onHandMilli > 0 ? averageOf(state.valueE4, state.onHandMilli) : state.averageE4;
const averageOf = (valueE4: number, quantityMilli: number) =>
  rounded(new Decimal(valueE4).times(1000).div(quantityMilli));

function rounded(value: Decimal): number {
  return value.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber();
}
