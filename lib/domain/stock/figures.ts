import { worthE4 } from "./moves";

/** A move as figures need it: when it happened (epoch milliseconds), signed thousandths, cost of one in ten-thousandths. */
export interface DatedMove {
  readonly partId: number;
  readonly kind: string;
  readonly at: number;
  readonly quantityMilli: number;
  readonly unitCostE4: number | null;
}

export interface PartStock {
  readonly onHandMilli: number;
  readonly valueE4: number;
}

export interface StockWorth {
  readonly valueE4: number;
  /** Parts on hand of which some came in without a cost: their worth is too low. */
  readonly withoutCost: number;
}

/** Of one part: when it first moved and when it was last used, in epoch milliseconds. */
export interface PartDates {
  readonly firstAt: number;
  readonly lastUsedAt: number | null;
}

export interface StockHistory {
  /** By instant. */
  readonly worth: ReadonlyMap<number, StockWorth>;
  /** By part, at the last instant. */
  readonly parts: ReadonlyMap<number, PartStock & PartDates>;
  /** Cost of what was used in the time of use, returns to stock taken off; ten-thousandths. */
  readonly usedE4: number;
  /** When anything first moved; null before it did. */
  readonly firstAt: number | null;
}

interface Held {
  onHandMilli: number;
  valueE4: number;
  costless: boolean;
  firstAt: number;
  lastUsedAt: number | null;
}

/**
 * Stock at some instants: every move dated up to each, in at its cost and out at the cost it took (IAS 2.10, 2.25). What was
 * written later with an earlier date counts on its date. A move without a cost is worth nothing and its part is told. Use is counted
 * after `usedFrom` up to the last instant. Moves are handed in one by one, in any order, and not kept.
 */
export function stockHistory(instants: readonly number[], usedFrom: number) {
  const ends = [...new Set(instants)].sort((a, b) => a - b);
  const last = ends.at(-1) ?? Number.NEGATIVE_INFINITY;
  /** What moved between one instant and the one before, by part. */
  const between = ends.map(() => new Map<number, Held>());
  let used = 0;
  let firstAt: number | null = null;
  return {
    add({ partId, kind, at, quantityMilli, unitCostE4 }: DatedMove): void {
      firstAt = Math.min(firstAt ?? at, at);
      if (at > last || kind === "betweenBins") return;
      const held = between[ends.findIndex((end) => at <= end)] as Map<number, Held>;
      const worth = Math.sign(quantityMilli) * worthE4(Math.abs(quantityMilli), unitCostE4 ?? 0);
      const isUse = kind === "use";
      if (at > usedFrom && (isUse || kind === "returnToStock")) used -= worth;
      joinTo(held, partId, {
        onHandMilli: quantityMilli,
        valueE4: worth,
        costless: unitCostE4 === null,
        firstAt: at,
        lastUsedAt: isUse ? at : null,
      });
    },
    history(): StockHistory {
      const parts = new Map<number, Held>();
      const worth = new Map<number, StockWorth>();
      for (const [index, end] of ends.entries()) {
        for (const [id, held] of between[index] as Map<number, Held>) joinTo(parts, id, held);
        worth.set(end, worthOf(parts));
      }
      for (const held of parts.values()) if (held.onHandMilli === 0) held.valueE4 = 0;
      return { worth, parts, usedE4: used, firstAt };
    },
  };
}

function joinTo(parts: Map<number, Held>, id: number, more: Held): void {
  const held = parts.get(id);
  if (!held) {
    parts.set(id, { ...more });
    return;
  }
  held.onHandMilli += more.onHandMilli;
  held.valueE4 += more.valueE4;
  held.costless ||= more.costless;
  held.firstAt = Math.min(held.firstAt, more.firstAt);
  if (more.lastUsedAt !== null) held.lastUsedAt = Math.max(held.lastUsedAt ?? 0, more.lastUsedAt);
}

/** What rounding left of a part that is gone is no stock. */
function worthOf(parts: ReadonlyMap<number, Held>): StockWorth {
  let valueE4 = 0;
  let withoutCost = 0;
  for (const { onHandMilli, valueE4: worth, costless } of parts.values()) {
    if (onHandMilli !== 0) valueE4 += worth;
    if (onHandMilli > 0 && costless) withoutCost++;
  }
  return { valueE4, withoutCost };
}

/**
 * How often a year the stock turns: cost of use in the period over average stock, scaled to 365 days. Null where there was no
 * stock. Source: inventory turnover, common practice (cost of goods over average inventory).
 */
export function turnsAYear(usedWorthE4: number, averageValueE4: number, days: number): number | null {
  return averageValueE4 <= 0 || days <= 0 ? null : (usedWorthE4 / averageValueE4) * (365 / days);
}
