import { allocate } from "../money/allocate";
import { amountOf, e4OfMinor } from "../money/scale";
import { Refusal } from "../refusal";

/** A part of a kit: so much of it, and what one of it costs the customer as the shop shows prices. */
export interface KitPart {
  readonly code: string;
  /** For one kit, in thousandths of the part's unit. */
  readonly quantityMilli: number;
  /** In ten-thousandths of the major currency unit; null where neither price nor cost is known. */
  readonly priceE4: number | null;
}

/** One line of an opened kit. */
export interface OpenedPart {
  readonly code: string;
  readonly quantityMilli: number;
  /** Null where the part has no price and the kit has none either. */
  readonly unitPriceE4: number | null;
  /** What the line comes to, in minor units. */
  readonly amountMinor: number | null;
}

/** Up to so many units a price in ten-thousandths can hit every cent of a line: half of it times these is half a cent. */
const FINE_MILLI = 99_000;

/**
 * Kits opened into their parts. Without a price of its own a kit costs what its parts do. With one (`priceMinor`, for one kit),
 * the lines add up to exactly that times `count`: it is split over the parts by their prices (by one each where none is known), by largest
 * remainder. A line of a hundred units or more cannot hit every cent, since a unit's price has four decimals: it takes the next
 * below, and the others the rest. Refuses a price on a kit of such lines alone, and a count that is none.
 */
export function openKit(
  parts: readonly KitPart[],
  priceMinor: number | null,
  count: number,
  currency: string,
): OpenedPart[] {
  if (!Number.isInteger(count) || count < 1 || count > 1000)
    throw new Refusal("Kits are opened whole.", "Enter 1 to 1000.");
  const all = parts.map((part) => ({ ...part, quantityMilli: part.quantityMilli * count }));
  const amount = (e4: number, milli: number) => amountOf(e4, milli, currency);
  if (priceMinor === null)
    return all.map(({ code, quantityMilli, priceE4 }) => ({
      code,
      quantityMilli,
      unitPriceE4: priceE4,
      amountMinor: priceE4 === null ? null : amount(priceE4, quantityMilli),
    }));
  if (all.length === 0) return [];
  const total = priceMinor * count;
  const weights = weightsOf(all, currency);
  const shares = allocate(total, weights);
  const coarse = all.map(({ quantityMilli }) => quantityMilli > FINE_MILLI);
  if (coarse.every(Boolean))
    throw new Refusal(
      "This kit has no part of fewer than a hundred units, so its price cannot be split to the cent.",
      "Leave the price empty, or add a part that is counted.",
    );
  // Cut down, so that what is left for the others is never below nothing.
  const near = all.map(({ quantityMilli }, at) =>
    Math.floor(unitPrice(shares[at] ?? 0, quantityMilli, currency)),
  );
  const fixed = all.map(({ quantityMilli }, at) => (coarse[at] ? amount(near[at] ?? 0, quantityMilli) : 0));
  const rest = total - fixed.reduce((sum, one) => sum + one, 0);
  const fine = weights.map((weight, at) => (coarse[at] ? 0 : weight));
  const left = allocate(rest, fine.some((weight) => weight > 0) ? fine : coarse.map((is) => (is ? 0 : 1)));
  return all.map(({ code, quantityMilli }, at) => {
    const amountMinor = coarse[at] ? (fixed[at] ?? 0) : (left[at] ?? 0);
    const unitPriceE4 = coarse[at]
      ? (near[at] ?? 0)
      : Math.round(unitPrice(amountMinor, quantityMilli, currency));
    return { code, quantityMilli, unitPriceE4, amountMinor };
  });
}

function weightsOf(parts: readonly KitPart[], currency: string): number[] {
  const amounts = parts.map(({ priceE4, quantityMilli }) => amountOf(priceE4 ?? 0, quantityMilli, currency));
  return amounts.some((one) => one > 0) ? amounts : parts.map(() => 1);
}

const unitPrice = (minor: number, quantityMilli: number, currency: string) =>
  (e4OfMinor(minor, currency) * 1000) / quantityMilli;

/** How many whole kits the free stock makes: the least of any part. Parts of no kit: none. */
export function kitsFree(
  parts: readonly { readonly quantityMilli: number; readonly freeMilli: number }[],
): number {
  if (parts.length === 0) return 0;
  return Math.max(0, Math.min(...parts.map((part) => Math.floor(part.freeMilli / part.quantityMilli))));
}
