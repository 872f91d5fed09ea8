import { within } from "../refusal";

/** What a supplier's deliveries show: how long they took, in days, and how far they lay apart. */
export interface MeasuredLead {
  readonly meanDays: number;
  /** Sample standard deviation. */
  readonly sdDays: number;
  readonly deliveries: number;
}

/** Fewer deliveries than this say nothing about a spread (judgement). */
const LEAST_DELIVERIES = 3;

/**
 * Mean and sample standard deviation (n - 1) of lead times in days, each one delivery from the day of its order. Null before there
 * are three. They are what the reorder point with variable demand and variable lead time asks for (Stevenson, Operations
 * Management; Heizer and Render, Operations Management, inventory chapters). Throws OutOfRange for a delivery before its order.
 */
export function measuredLead(days: readonly number[]): MeasuredLead | null {
  if (days.length < LEAST_DELIVERIES) return null;
  const meanDays = days.reduce((sum, one) => sum + within("days to arrive", one, 0, 3650), 0) / days.length;
  const squares = days.reduce((sum, one) => sum + (one - meanDays) ** 2, 0);
  return { meanDays, sdDays: Math.sqrt(squares / (days.length - 1)), deliveries: days.length };
}
