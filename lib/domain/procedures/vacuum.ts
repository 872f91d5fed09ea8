import { convert } from "../units/convert";

/** Units that vacuum gauges read in. */
export const VACUUM_UNITS = ["hPa", "kPa", "cmHg", "mmHg"] as const;
export type VacuumUnit = (typeof VACUUM_UNITS)[number];

/** Whose value a target band is. */
export const BAND_FROM = ["maker", "shop", "practice"] as const;
export type BandFrom = (typeof BAND_FROM)[number];
export const BAND_WORDS: Readonly<Record<BandFrom, string>> = {
  maker: "the maker's",
  shop: "the shop's own",
  practice: "common practice, no source",
};

/** Greatest difference between carburettors at idle that is let be. Source: common practice; about 2 cm of mercury. */
export const COMMON_BAND_KPA = 2.7;

/** A value in another unit of vacuum. Units are exact (lib/domain/units). */
export const vacuumIn = (value: number, from: VacuumUnit, to: VacuumUnit): number => convert(value, from, to);

/** What one carburettor's gauge says: how far below the air around, always 0 or more. */
export interface VacuumReading {
  readonly carburettor: number;
  readonly value: number;
}

export interface ComparedReading extends VacuumReading {
  /** How much less than the greatest of all; 0 for that one. */
  readonly below: number;
  /** Its share of the greatest: 1 for that one; 1 for all where nothing is drawn. */
  readonly ratio: number;
}

/** Carburettors read at once, against each other. Values stay in the unit that they were read in. */
export interface Balance {
  readonly readings: readonly ComparedReading[];
  readonly greatest: number;
  readonly least: number;
  /** Greatest less least. */
  readonly spread: number;
  /** Least over greatest: 1 is level. The same in every unit. */
  readonly ratio: number;
  readonly inBand: boolean;
  /** What to turn next; null where all stand in the band, or where there is one carburettor. */
  readonly next: NextScrew | null;
}

export interface NextScrew {
  /** "A", "B", "C": its place in the order of adjustment. */
  readonly screw: string;
  /** Carburettors on either side of it. */
  readonly sides: readonly [readonly number[], readonly number[]];
  /** How much the greater side's mean lies above the other's. */
  readonly difference: number;
  /** The side with the greater vacuum: it is the more closed one and is opened, or the other is closed. */
  readonly greater: readonly number[];
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

/**
 * The screws between carburettors in the order in which they are set: neighbours first, then pair against pair. On a rack of three
 * the middle one is what the others are set to. Source: common practice; a maker may name another base.
 */
function screwsOf(carburettors: readonly number[]): readonly Pick<NextScrew, "screw" | "sides">[] {
  const [a = 0, b = 0, c = 0, d = 0] = carburettors;
  if (carburettors.length === 2) return [{ screw: "A", sides: [[a], [b]] }];
  if (carburettors.length === 3)
    return [
      { screw: "A", sides: [[a], [b]] },
      { screw: "B", sides: [[c], [b]] },
    ];
  if (carburettors.length === 4)
    return [
      { screw: "A", sides: [[a], [b]] },
      { screw: "B", sides: [[c], [d]] },
      {
        screw: "C",
        sides: [
          [a, b],
          [c, d],
        ],
      },
    ];
  return [];
}

/**
 * Compares readings taken at once, all in one unit, with the greatest difference that is wanted. While the spread is beyond the
 * band, `next` is the first screw in order whose sides differ by more than half the band. There always is one: were every screw
 * within half the band b, a rack of three would spread over b/2 + b/2 at most, one of four over b/4 + b/2 + b/4. Source: identity.
 */
export function balance(readings: readonly VacuumReading[], band: number): Balance {
  const sorted = readings.toSorted((one, other) => one.carburettor - other.carburettor);
  const values = sorted.map((one) => one.value);
  const greatest = Math.max(...values);
  const least = Math.min(...values);
  const share = (value: number) => (greatest > 0 ? value / greatest : 1);
  const spread = greatest - least;
  // A tail of the binary representation is no difference: 0.3 - 0.2 is inside a band of 0.1.
  const inBand = spread <= band * (1 + 1e-9);
  return {
    readings: sorted.map((one) => ({ ...one, below: greatest - one.value, ratio: share(one.value) })),
    greatest,
    least,
    spread,
    ratio: share(least),
    inBand,
    next: inBand ? null : nextScrew(sorted, band),
  };
}

function nextScrew(readings: readonly VacuumReading[], band: number): NextScrew | null {
  const screws = screwsOf(readings.map((one) => one.carburettor));
  const of = (side: readonly number[]) =>
    mean(readings.filter((one) => side.includes(one.carburettor)).map((one) => one.value));
  const told = screws.map(({ screw, sides }) => {
    const difference = of(sides[0]) - of(sides[1]);
    return { screw, sides, difference: Math.abs(difference), greater: difference > 0 ? sides[0] : sides[1] };
  });
  const limit = screws.length === 1 ? band : band / 2;
  return told.find((one) => one.difference > limit) ?? null;
}
