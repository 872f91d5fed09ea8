import { within } from "../refusal";

export interface Available {
  /** On hand and reserved for nobody. */
  readonly nowMilli: number;
  /** The same with what is on order; below nothing when more is reserved than there is and will be. */
  readonly laterMilli: number;
}

/** What of a part can still be reserved, in thousandths of its unit. */
export function available(stock: {
  onHandMilli: number;
  reservedMilli: number;
  onOrderMilli: number;
}): Available {
  const { onHandMilli, reservedMilli, onOrderMilli } = stock;
  return {
    nowMilli: Math.max(0, onHandMilli - reservedMilli),
    laterMilli: onHandMilli + onOrderMilli - reservedMilli,
  };
}

export interface Held {
  /** Reserved from the bin. */
  readonly fromStockMilli: number;
  /** Reserved from what is on order. */
  readonly fromOrderMilli: number;
  /** Not reserved: to be ordered. */
  readonly shortMilli: number;
}

/**
 * How much of what is wanted can be reserved without promising more than is on hand and on order: first from the bin,
 * then from orders, and the rest is short. Thousandths. Refuses quantities below nothing.
 */
export function reserve(asked: {
  wantedMilli: number;
  onHandMilli: number;
  reservedMilli: number;
  onOrderMilli?: number;
}): Held {
  const { wantedMilli, onHandMilli, reservedMilli, onOrderMilli = 0 } = asked;
  for (const [name, value] of Object.entries({ wantedMilli, onHandMilli, reservedMilli, onOrderMilli }))
    within(name, value, 0, Number.MAX_SAFE_INTEGER);
  const free = available({ onHandMilli, reservedMilli, onOrderMilli });
  const fromStockMilli = Math.min(wantedMilli, free.nowMilli);
  const fromOrderMilli = Math.min(wantedMilli - fromStockMilli, Math.max(0, free.laterMilli - free.nowMilli));
  return { fromStockMilli, fromOrderMilli, shortMilli: wantedMilli - fromStockMilli - fromOrderMilli };
}
