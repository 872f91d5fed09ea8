import { Refusal, within } from "../refusal";

/** Jet numbers, as marked on the jet; meaning depends on the family's convention ("bore" or "flow"), never on the number. */
const SMALLEST_JET = 10;
const LARGEST_JET = 400;

/**
 * A jet size from what a person types or a jet is marked with: "122.5", "122,5", "#120", "No. 120". Refuses anything else, sizes
 * outside 10 to 400, and finer steps than a tenth.
 */
export function parseJetSize(text: string): number {
  const match = /^\s*(?:#|no\.?|nr\.?|№)?\s*(\d{1,3})(?:[.,](\d)0*)?\s*$/i.exec(text);
  if (!match)
    throw new Refusal(`“${text.trim()}” is no jet size.`, "Enter the number on the jet, such as 122.5.");
  return within("jet size", Number(`${match[1]}.${match[2] ?? 0}`), SMALLEST_JET, LARGEST_JET);
}

/** A jet size as it is stored in thousandths: 122.5 is 122 500. */
export function jetSizeMilli(size: number): number {
  return Math.round(size * 1000);
}

/** All sizes of a family from `low` to `high` in steps of `step`, rising; e.g. 100 to 150 by 2.5. */
export function jetSizes(family: { low: number; high: number; step: number }): number[] {
  within("smallest size", family.low, SMALLEST_JET, LARGEST_JET);
  within("largest size", family.high, family.low, LARGEST_JET);
  within("step", family.step, 0.1, 50);
  const [low, high, step] = [family.low, family.high, family.step].map(jetSizeMilli) as [
    number,
    number,
    number,
  ];
  return Array.from({ length: Math.floor((high - low) / step) + 1 }, (_, i) => (low + i * step) / 1000);
}

export interface NearestSizes {
  /** The size itself, when the family has it. */
  readonly same: number | null;
  /** Next smaller and next larger, null beyond the ends. */
  readonly below: number | null;
  readonly above: number | null;
  /** All sizes, nearest first; of two equally near the larger one, which is the richer and the safer. */
  readonly nearest: readonly number[];
}

/** Where a wanted size falls among those that there are (in a drawer, or in a family). */
export function nearestSizes(sizes: readonly number[], wanted: number): NearestSizes {
  const distance = (size: number) => Math.abs(jetSizeMilli(size) - jetSizeMilli(wanted));
  const rising = [...new Set(sizes)].sort((a, b) => a - b);
  return {
    same: rising.find((size) => distance(size) === 0) ?? null,
    below: rising.findLast((size) => jetSizeMilli(size) < jetSizeMilli(wanted)) ?? null,
    above: rising.find((size) => jetSizeMilli(size) > jetSizeMilli(wanted)) ?? null,
    nearest: rising.toSorted((a, b) => distance(a) - distance(b) || b - a),
  };
}
