import { Refusal } from "../refusal";
import { exactly, type Numeric, product, sumOf } from "./exact";
import { roundHalfAway } from "./round";

/**
 * Rounds the fractions numerators[i] / denominator to whole numbers that add up to `target`, by largest remainder:
 * all are cut towards zero, then units go where most was cut; ties go to the larger fraction, then to the earlier one (sorting is stable).
 * Negating every numerator and the target negates the result. Numerators are kept undivided so that equal remainders compare equal.
 * Throws Refusal when the target is further from the sum than rounding can explain.
 * Source: method of largest remainder (Hamilton); the tie rule is judgement.
 */
export function roundToSum(numerators: readonly Numeric[], denominator: Numeric, target: number): number[] {
  const [down = 1n, ...exact] = wholes([denominator, ...numerators]);
  const shares = exact.map((n) => roundHalfAway(n / down));
  const missing = target - shares.reduce((sum, s) => sum + s, 0);
  if (Math.abs(missing) > shares.length) {
    throw new Refusal("The parts do not add up to the total.", "Check the amounts that were entered.");
  }
  const sign = Math.sign(missing);
  const order = exact
    .map((n, at) => ({ at, lost: (n % down) * BigInt(sign), size: n < 0n ? -n : n }))
    .sort((a, b) => compared(b.lost, a.lost) || compared(b.size, a.size));
  for (const { at } of order.slice(0, Math.abs(missing))) shares[at] = (shares[at] ?? 0) + sign;
  return shares;
}

const compared = (a: bigint, b: bigint): number => (a < b ? -1 : a > b ? 1 : 0);

/** The values as whole numbers in the same proportion. */
function wholes(values: readonly Numeric[]): bigint[] {
  const exact = values.map(exactly);
  const common = exact.reduce((all, { under }) => (all % under === 0n ? all : all * under), 1n);
  return exact.map(({ over, under }) => over * (common / under));
}

/**
 * Splits an amount in minor units in proportion to weights, by largest remainder; the parts add up to the amount.
 * allocate(10000, [1, 1, 1]) is [3334, 3333, 3333]. Throws Refusal for no weights, a negative one, or all zero.
 */
export function allocate(minor: number, weights: readonly number[]): number[] {
  if (weights.some((w) => !(w >= 0)) || weights.every((w) => w === 0)) {
    throw new Refusal(
      "An amount can only be split over shares above zero.",
      "Enter at least one share above zero.",
    );
  }
  return roundToSum(
    weights.map((w) => product(minor, w)),
    sumOf(weights),
    minor,
  );
}
