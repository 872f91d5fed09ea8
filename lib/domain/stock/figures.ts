import { worthE4 } from "./moves";

/** A move as figures need it: when it happened (epoch milliseconds), signed thousandths, cost of one in ten-thousandths. */
export interface DatedMove {
  readonly partId: number;
  readonly kind: string;
  readonly at: number;
  readonly quantityMilli: number;
  readonly unitCostE4: number | null;
}

export interface StockAt {
  /** By part: what was on hand, and what it was worth. */
  readonly parts: ReadonlyMap<number, { readonly onHandMilli: number; readonly valueE4: number }>;
  readonly valueE4: number;
  /** Parts on hand of which some came in without a cost: their worth is too low. */
  readonly withoutCost: number;
}

/**
 * Stock at an instant: every move dated up to it, in at its cost and out at the cost it took (IAS 2.10, 2.25). What was
 * written later with an earlier date counts on its date. A move without a cost is worth nothing and its part is told.
 */
export function stockAt(moves: readonly DatedMove[], at: number): StockAt {
  const parts = new Map<number, { onHandMilli: number; valueE4: number }>();
  const costless = new Set<number>();
  for (const move of moves) {
    if (move.at > at || move.kind === "betweenBins") continue;
    const part = parts.get(move.partId) ?? { onHandMilli: 0, valueE4: 0 };
    part.onHandMilli += move.quantityMilli;
    if (move.unitCostE4 === null) costless.add(move.partId);
    else
      part.valueE4 += Math.sign(move.quantityMilli) * worthE4(Math.abs(move.quantityMilli), move.unitCostE4);
    parts.set(move.partId, part);
  }
  let valueE4 = 0;
  let withoutCost = 0;
  for (const [id, part] of parts) {
    // What rounding left of a part that is gone is no stock.
    if (part.onHandMilli === 0) part.valueE4 = 0;
    valueE4 += part.valueE4;
    if (part.onHandMilli > 0 && costless.has(id)) withoutCost++;
  }
  return { parts, valueE4, withoutCost };
}

/** Cost of what was used between two instants, returns to stock taken off; ten-thousandths. */
export function usedE4(moves: readonly DatedMove[], from: number, to: number): number {
  return moves.reduce(
    (sum, move) =>
      move.at > from && move.at <= to && (move.kind === "use" || move.kind === "returnToStock")
        ? sum - Math.sign(move.quantityMilli) * worthE4(Math.abs(move.quantityMilli), move.unitCostE4 ?? 0)
        : sum,
    0,
  );
}

/**
 * How often a year the stock turns: cost of use in the period over average stock, scaled to 365 days. Null where there was no
 * stock. Source: inventory turnover, common practice (cost of goods over average inventory).
 */
export function turnsAYear(usedWorthE4: number, averageValueE4: number, days: number): number | null {
  return averageValueE4 <= 0 || days <= 0 ? null : (usedWorthE4 / averageValueE4) * (365 / days);
}
