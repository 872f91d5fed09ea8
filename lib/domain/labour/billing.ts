import { Refusal } from "../refusal";

/** What labour is billed in: whole minutes, or tenths of an hour rounded up. */
export type BillingUnit = "minutes" | "tenths";

/**
 * Minutes to bill for minutes spent: begun minutes count whole; in tenths of an hour, begun tenths (6 minutes) count whole.
 * Common practice. Refuses less than nothing.
 */
export function billableMinutes(spentMinutes: number, unit: BillingUnit): number {
  if (!(spentMinutes >= 0) || !Number.isFinite(spentMinutes))
    throw new Refusal(`${spentMinutes} minutes cannot be billed.`, "Correct the time entry.");
  // A billionth forgives sums such as 0.1 + 0.2 that fall a hair above a whole minute.
  const size = unit === "tenths" ? 6 : 1;
  return Math.max(0, Math.ceil(spentMinutes / size - 1e-9) * size);
}
