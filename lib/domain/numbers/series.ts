import { Refusal } from "../refusal";

/** How the numbers of a series are written. */
export interface NumberStyle {
  /** Stands before each number; empty for none. */
  readonly prefix: string;
  /** Begins again at 1 each year, and each number says its year. */
  readonly yearly: boolean;
}

/** A yearly number is its year times this, and its place in the year: so numbers grow, and each is there once. */
const YEAR = 100_000;
/** So many numbers a year has in a yearly series. */
export const MOST_A_YEAR = YEAR - 1;

export const MOST_PREFIX = 8;
/** Letters, digits and hyphens, beginning with a letter; a digit at the end would run into the number. */
export const PREFIX = /^(?:[A-Za-z](?:[A-Za-z0-9-]{0,6}[A-Za-z-])?)?$/;

/** Year and place of a number of a yearly series. */
const parted = (number: number) => ({ year: Math.floor(number / YEAR), place: number % YEAR });

/** The number at a place in a year, in a yearly series. */
export const numberIn = (year: number, place: number): number => year * YEAR + place;

/** Its place in its year. */
export const placeOf = (number: number): number => parted(number).place;

/**
 * A number as papers write it: "F-2001", "2026-0042". The place in a year has four digits at least, so that lists sort as they
 * count up to there. Common practice.
 */
export function writtenNumber({ prefix, yearly }: NumberStyle, number: number): string {
  if (!yearly) return `${prefix}${number}`;
  const { year, place } = parted(number);
  return `${prefix}${year}-${String(place).padStart(4, "0")}`;
}

/**
 * The number that a series gives out in a year, where \`next\` is the one that would follow: in a yearly series the first of the
 * year, if \`next\` is of an earlier one. A clock that was set back takes no series back. Throws Refusal where the year has no more.
 */
export function numberDue({ yearly }: NumberStyle, next: number, year: number): number {
  if (!yearly) return next;
  const due = Math.max(next, numberIn(year, 1));
  if (placeOf(due) !== 0) return due;
  throw new Refusal(
    `The numbers of ${year} have run out: a yearly series has ${MOST_A_YEAR.toLocaleString("en")} of them.`,
    "Nothing was numbered. Write to whoever looks after this server.",
    {},
    "conflict",
  );
}

/** A sentence for the first place where issued numbers, in their order, do not follow each other; null where all do. */
export function gapIn({ yearly }: NumberStyle, numbers: readonly number[]): number | null {
  for (const [at, number] of numbers.entries()) {
    const before = numbers[at - 1];
    if (before === undefined || number === before + 1) continue;
    const began = yearly && placeOf(number) === 1 && parted(number).year > parted(before).year;
    if (!began) return number;
  }
  return null;
}
