/** A unit as a reading needs it: its SI value is (number + offset) × factor; then every way to write it, the usual one first. */
export type ScaleUnit = readonly [factor: number, offset: number, ...names: string[]];

/** What a reading is held to, without the tables that it comes from: a browser judges by this, and does not bring them. */
export interface ReadingScale {
  /** Units of the same quantity, the hold point's own first; none where the reading is a plain number. */
  readonly units: readonly ScaleUnit[];
  /** How many of `units` are offered beside each other; none where there is no choice. */
  readonly offered: number;
  /** True where there are readings below nothing. */
  readonly below: boolean;
  /** What the thing measured can be; absent where nothing is kept of it. */
  readonly bounds?: readonly [low: number, high: number] | undefined;
}

/** What is wrong with a reading. */
export type ReadingFault = "unit" | "number" | "below" | "bounds";

/** A number with the unit typed behind it: “48”, “48 mm”, “1,9 in”; null where there is no number. */
export function partedReading(text: string): { value: number; unit: string } | null {
  const bare = text.replace(/(\d)[\s\u00a0\u202f](?=\d{3}(?!\d))/gu, "$1");
  const found = /^\s*([-−]?(?:\d+[.,]?\d*|[.,]\d+))\s*(.{0,20}?)\s*$/u.exec(bare);
  if (!found?.[1] || /^[\d.,]/u.test(found[2] ?? "")) return null;
  return { value: Number(found[1].replace("−", "-").replace(",", ".")), unit: found[2] ?? "" };
}

/** Signs of the units to choose from, the hold point's own first; empty where there is no choice. */
export function offeredUnits(scale: ReadingScale): string[] {
  return scale.units.slice(0, scale.offered).map(([, , sign = ""]) => sign);
}

/**
 * A reading in the hold point's own unit, or what is wrong with it. `unit` is as typed or chosen; empty or `own`, as the hold point
 * writes its unit, means its own.
 */
export function readOn(scale: ReadingScale, own: string, value: number, unit: string): number | ReadingFault {
  const [first] = scale.units;
  const wanted = unit.trim().toLowerCase();
  const same = unit === "" || unit === own;
  const given = same
    ? first
    : scale.units.find(([, , ...names]) => names.includes(wanted) || names[0] === unit.trim());
  if (!same && !given) return "unit";
  const read = first && given && given !== first ? between(value, given, first) : value;
  if (!Number.isFinite(read) || Math.abs(read) > 1e9) return "number";
  if (read < 0 && !scale.below) return "below";
  const [low, high] = scale.bounds ?? [-Infinity, Infinity];
  return read < low || read > high ? "bounds" : read;
}

/** To nine significant figures: more than any instrument here has, and without the tail of a conversion. */
const between = (value: number, [factor, offset]: ScaleUnit, [ownFactor, ownOffset]: ScaleUnit): number =>
  Number((((value + offset) * factor) / ownFactor - ownOffset).toPrecision(9));
