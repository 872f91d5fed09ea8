import { within } from "../refusal";
import { normalQuantile } from "./normal";

/**
 * Order quantity with the least ordering and holding cost a year: sqrt(2 D S / H). Demand in units a year, cost of placing
 * one order, cost of holding one unit for a year (both in one currency).
 * Source: F. W. Harris 1913; Heizer and Render, Operations Management, inventory chapter.
 */
export function economicQuantity(
  demandPerYear: number,
  costPerOrder: number,
  holdingPerUnitYear: number,
): number {
  within("demand a year", demandPerYear, 0, 1e9);
  within("cost of an order", costPerOrder, 0, 1e9);
  within("holding cost", holdingPerUnitYear, 1e-9, 1e9);
  return Math.sqrt((2 * demandPerYear * costPerOrder) / holdingPerUnitYear);
}

/** Use of a part and its supplier's speed: means and standard deviations, in units and days. */
export interface UseAndLead {
  readonly usePerDay: number;
  readonly useSd: number;
  readonly leadDays: number;
  readonly leadSd: number;
}

/**
 * Standard deviation of use during the lead time, for days that do not depend on one another:
 * sqrt(L sd_use^2 + use^2 sd_lead^2). Source: Stevenson, Operations Management, reorder point with variable demand and lead time.
 */
export function leadTimeSd(u: UseAndLead): number {
  return Math.sqrt(u.leadDays * u.useSd ** 2 + u.usePerDay ** 2 * u.leadSd ** 2);
}

/** Stock held against a bad lead time: z sd. `risk` is the chance of running out before the delivery, above 0 and at most 0.5. */
export function safetyStock(sdDuringLead: number, risk: number): number {
  within("spread of use", sdDuringLead, 0, 1e9);
  within("risk of running out", risk, 1e-6, 0.5);
  return normalQuantile(1 - risk) * sdDuringLead;
}

/** Order when stock falls to this: expected use in the lead time plus safety stock. Source: Stevenson ch. 12. */
export function reorderPoint(meanDuringLead: number, sdDuringLead: number, risk: number): number {
  within("use in the lead time", meanDuringLead, 0, 1e9);
  return meanDuringLead + safetyStock(sdDuringLead, risk);
}
