import { percent } from "../money/round";
import { amountOf, e4OfMinor, MILLI } from "../money/scale";
import { Refusal, within } from "../refusal";
import type { PriceLine } from "./facts";

const mirrored = (value: number) => 0 - value;

/**
 * The lines of a credit note: every line with quantity and amounts of the other sign and the same price, so that its
 * totals are the invoice's totals with the other sign, to the cent.
 */
export function creditOf(lines: readonly PriceLine[]): PriceLine[] {
  return lines.map((l) => ({
    ...l,
    quantityMilli: mirrored(l.quantityMilli),
    netMinor: mirrored(l.netMinor),
    shownMinor: mirrored(l.shownMinor),
    costMinor: l.costMinor === null ? null : mirrored(l.costMinor),
  }));
}

export type DepositRule = { readonly percentBp: number } | { readonly amountMinor: number };

/**
 * The deposit on a total with tax, in minor units: a share rounded half away from zero, or a set amount but never more than
 * the total. Throws OutOfRange for a share outside 0 to 100 % and Refusal for an amount or total below zero.
 */
export function deposit(grossMinor: number, rule: DepositRule): number {
  if ("percentBp" in rule) within("deposit", rule.percentBp / 100, 0, 100, "%");
  const wanted = "percentBp" in rule ? percent(grossMinor, rule.percentBp) : rule.amountMinor;
  if (!Number.isSafeInteger(wanted) || wanted < 0 || grossMinor < 0) {
    throw new Refusal("A deposit cannot be below zero.", "Enter an amount from 0 to the total.");
  }
  return Math.min(wanted, grossMinor);
}

/** An item net price (BT-146, in E4) with its base quantity (BT-149, in thousandths). */
export interface NetPrice {
  readonly priceE4: number;
  readonly baseQuantityMilli: number;
}

/**
 * A price without tax that gives the line's net amount exactly: price / base x quantity = BT-131. The unit price itself
 * where it does; else the line's net for its whole quantity. Never negative (BR-27).
 */
export function netPriceOf(line: PriceLine, currency: string): NetPrice {
  const plain = amountOf(line.unitPriceE4, line.quantityMilli, currency) === line.netMinor;
  if (plain || line.quantityMilli === 0) return { priceE4: line.unitPriceE4, baseQuantityMilli: MILLI };
  return {
    priceE4: e4OfMinor(Math.abs(line.netMinor), currency),
    baseQuantityMilli: Math.abs(line.quantityMilli),
  };
}
