import { roundToSum } from "../money/allocate";
import { Decimal } from "../money/decimal";
import { roundHalfAway } from "../money/round";

/** What documents charge, or a share of it, in one tax category (UNCL5305) at one rate (basis points); minor units. */
export interface TaxedAmount {
  readonly category: string;
  readonly rateBp: number;
  readonly netMinor: number;
  readonly taxMinor: number;
}

export const grossOf = ({ netMinor, taxMinor }: TaxedAmount): number => netMinor + taxMinor;

const keyOf = ({ category, rateBp }: TaxedAmount) => `${category} ${rateBp}`;

/** The same amounts with one entry for each category and rate, in the order they first come; none is left out for being 0. */
export function summed(amounts: readonly TaxedAmount[]): TaxedAmount[] {
  const found = new Map<string, TaxedAmount>();
  for (const one of amounts) {
    const before = found.get(keyOf(one));
    found.set(keyOf(one), {
      category: one.category,
      rateBp: one.rateBp,
      netMinor: (before?.netMinor ?? 0) + one.netMinor,
      taxMinor: (before?.taxMinor ?? 0) + one.taxMinor,
    });
  }
  return [...found.values()];
}

/** The amounts of `after` less those of `before`, by category and rate; what does not change is left out. */
export function changeOf(before: readonly TaxedAmount[], after: readonly TaxedAmount[]): TaxedAmount[] {
  const less = before.map((one) => ({ ...one, netMinor: 0 - one.netMinor, taxMinor: 0 - one.taxMinor }));
  return summed([...after, ...less]).filter((one) => one.netMinor !== 0 || one.taxMinor !== 0);
}

/**
 * Some money (minor units) as a share of what documents charge: over categories and rates in proportion to their totals with tax, by
 * largest remainder, and in each the tax in the proportion it has there, rounded half away from zero. All of the money is the
 * documents' own amounts to the cent; money on the other side of zero, or more than is charged, counts as none or as all.
 * Source: fair and reasonable apportionment as cash accounting asks for it (HMRC Notice 731, from memory); the rounding is judgement.
 */
export function shareOfCharged(minor: number, charged: readonly TaxedAmount[]): TaxedAmount[] {
  const groups = summed(charged);
  const whole = groups.reduce((sum, group) => sum + grossOf(group), 0);
  const money = whole >= 0 ? Math.min(whole, Math.max(0, minor)) : Math.max(whole, Math.min(0, minor));
  if (money === whole) return groups;
  const shares = roundToSum(
    groups.map((group) => new Decimal(Math.abs(money)).mul(grossOf(group))),
    Math.abs(whole),
    money,
  );
  return groups.map((group, at) => {
    const share = shares[at] ?? 0;
    const gross = grossOf(group);
    const taxMinor =
      gross === 0 ? 0 : roundHalfAway(new Decimal(share).mul(group.taxMinor).div(new Decimal(gross)));
    return { category: group.category, rateBp: group.rateBp, netMinor: share - taxMinor, taxMinor };
  });
}
