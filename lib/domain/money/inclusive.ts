import { roundToSum } from "./allocate";
import { product, quotient, sumOf } from "./exact";
import { roundHalfAway } from "./round";

/** An amount with tax in it, with its tax category (UNCL5305) and rate in basis points. */
export interface ShownAmount {
  readonly shownMinor: number;
  readonly category: string;
  readonly rateBp: number;
}

const WHOLE = 10_000;

/**
 * The tax inside an amount with tax: amount x rate / (100 % + rate), half away from zero: a 1/11th at 10 %.
 * Where a net exists with net + round(net x rate) = amount, this is exactly that tax; elsewhere (one amount in eleven at
 * 10 %) it is one minor unit from round(net x rate), which BR-CO-17's tolerance allows.
 * Source: A New Tax System (Goods and Services Tax) Act 1999 s 9-90 (AU), from memory; the identity is arithmetic.
 */
export function taxWithin(grossMinor: number, rateBp: number): number {
  return roundHalfAway(quotient(product(grossMinor, rateBp), sumOf([WHOLE, rateBp])));
}

/**
 * Net amounts (BT-131) of lines whose shown prices include tax, in the order given. Per category and rate the nets add
 * up to what is shown less the tax within it, so that BR-CO-10 holds exactly and the gross equals what was shown.
 * Units left over go by largest remainder.
 */
export function netsOfShown(amounts: readonly ShownAmount[]): number[] {
  const nets = new Array<number>(amounts.length).fill(0);
  const groups = Map.groupBy(amounts.keys(), (at) => `${amounts[at]?.category} ${amounts[at]?.rateBp}`);
  for (const places of groups.values()) {
    const members = places.map((at) => amounts[at] as ShownAmount);
    const rateBp = members[0]?.rateBp ?? 0;
    const shown = members.reduce((total, m) => total + m.shownMinor, 0);
    const numerators = members.map((m) => product(m.shownMinor, WHOLE));
    const shares = roundToSum(numerators, sumOf([WHOLE, rateBp]), shown - taxWithin(shown, rateBp));
    places.forEach((at, i) => {
      nets[at] = shares[i] ?? 0;
    });
  }
  return nets;
}

/** Tax of a category and rate whose lines are frozen with both amounts: what was shown less its net. */
export function taxOfShown(
  members: readonly { readonly netMinor: number; readonly shownMinor?: number }[],
): number {
  return members.reduce((total, m) => {
    if (m.shownMinor === undefined) throw new Error("An amount that includes tax needs shownMinor.");
    return total + m.shownMinor - m.netMinor;
  }, 0);
}
