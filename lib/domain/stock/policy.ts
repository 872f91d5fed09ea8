import type { Reason } from "../reason";
import { within } from "../refusal";
import { economicQuantity, leadTimeSd, reorderPoint, safetyStock } from "./reorder";

/** Fewer uses than this in a year and the spread of daily use says nothing (judgement). */
const FEW_USES_A_YEAR = 12;

export interface StockHabits {
  /** Each day with use: days since the start of the record, and thousandths used that day. */
  readonly uses: readonly { readonly day: number; readonly quantityMilli: number }[];
  /** Length of the record in days. */
  readonly days: number;
  readonly leadDays: number;
  readonly leadSd: number;
  /** Where the lead time is known from; absent: as the supplier says. */
  readonly leadFrom?: string;
  /** Chance of running out before a delivery, e.g. 0.03. */
  readonly risk: number;
  readonly costPerOrder: number;
  /** Cost of holding one unit for a year. */
  readonly holdingPerUnitYear: number;
  /** Smallest quantity the supplier sells, in thousandths. */
  readonly packMilli: number;
}

export interface StockPolicy {
  readonly method: "reorder point" | "min and max";
  /** Order when on hand plus on order less reserved is at or below this; thousandths. */
  readonly pointMilli: number;
  /** How much to order then; thousandths, whole packs. For "min and max" enough to reach the max from the min. */
  readonly orderMilli: number;
  readonly because: readonly Reason[];
}

/**
 * When and how much to order. Parts used often: reorder point and economic quantity. Parts used a few times a year: min is the
 * largest use of one day, or the expected use in the lead time if that is more; max is min plus the largest use (judgement: a shop
 * must be able to do the job twice running). Results are whole packs. Refuses empty or negative records.
 */
export function stockPolicy(habits: StockHabits): StockPolicy {
  const { uses, days, leadDays, packMilli } = habits;
  within("length of the record", days, 1, 36_500, "days");
  within("lead time", leadDays, 0, 3650, "days");
  within("spread of the lead time", habits.leadSd, 0, 3650, "days");
  within("pack", packMilli, 1, 1e12);
  const total = uses.reduce((sum, use) => sum + within("use", use.quantityMilli, 0, 1e12), 0);
  const usesAYear = (uses.length * 365) / days;
  const perDay = total / days;
  const facts: Reason[] = [
    {
      fact: `${uses.length} days with use in ${days}`,
      from: "the part's moves",
      effect: `about ${usesAYear.toFixed(1)} a year`,
    },
    {
      fact: `${Number(leadDays.toFixed(1))} days lead time${habits.leadSd > 0 ? `, give or take ${habits.leadSd.toFixed(1)}` : ""}`,
      from: habits.leadFrom ?? "the supplier",
    },
  ];
  const packs = (milli: number) => Math.max(1, Math.ceil(milli / packMilli - 1e-9)) * packMilli;
  if (usesAYear < FEW_USES_A_YEAR) {
    const largest = uses.reduce((most, use) => Math.max(most, use.quantityMilli), 0);
    const min = Math.ceil(Math.max(largest, perDay * leadDays));
    const why: Reason = {
      fact: "used too seldom for an average to hold",
      from: `fewer than ${FEW_USES_A_YEAR} uses a year (judgement)`,
      effect: "min and max",
    };
    return { method: "min and max", pointMilli: min, orderMilli: packs(largest), because: [...facts, why] };
  }
  const useSd = Math.sqrt(
    (uses.reduce((sum, use) => sum + use.quantityMilli ** 2, 0) - days * perDay ** 2) / Math.max(1, days - 1),
  );
  const sd = leadTimeSd({ usePerDay: perDay, useSd, leadDays, leadSd: habits.leadSd });
  const point = Math.ceil(reorderPoint(perDay * leadDays, sd, habits.risk));
  const quantity = economicQuantity((perDay / 1000) * 365, habits.costPerOrder, habits.holdingPerUnitYear);
  const why: Reason = {
    fact: `${(habits.risk * 100).toFixed(1)} % risk of running out`,
    from: "the shop's setting",
    effect: `safety stock ${(safetyStock(sd, habits.risk) / 1000).toFixed(1)}`,
  };
  return {
    method: "reorder point",
    pointMilli: point,
    orderMilli: packs(quantity * 1000),
    because: [...facts, why],
  };
}
