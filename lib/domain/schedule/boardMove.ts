import { dayAfter } from "./calendarDay";

/** Where a booking stands on the board of a day, or is about to be put. */
export interface Placed {
  /** The shop's calendar day. */
  readonly day: string;
  /** Minutes after midnight on the shop's clock at which the work starts. */
  readonly from: number;
  /** Working minutes. */
  readonly minutes: number;
  readonly bayId: number;
  readonly staffId: number;
}

/** What the board has for rows, in their order. */
export interface BoardRows {
  readonly bays: readonly number[];
  readonly people: readonly number[];
}

/** Starts and lengths on the board are multiples of this (judgement, in minutes). */
export const BOARD_STEP = 15;
const LAST_START = 24 * 60 - BOARD_STEP;
const MOST_MINUTES = 60_000;

const onStep = (minutes: number): number => Math.round(minutes / BOARD_STEP) * BOARD_STEP;

/** A start within the day, on the board's steps. */
export const startWithin = (minutes: number): number => Math.min(Math.max(onStep(minutes), 0), LAST_START);
/** A length of at least one step. */
export const lengthOver = (minutes: number): number =>
  Math.min(Math.max(onStep(minutes), BOARD_STEP), MOST_MINUTES);

/**
 * Where a key puts a booking: left and right a step earlier or later, with Shift shorter or longer, up and down to the row above
 * or below among the rows it is looked at in, Page Up and Page Down to the day before or after. Null for a key that does not move.
 */
export function movedByKey(
  placed: Placed,
  { key, shift }: { readonly key: string; readonly shift: boolean },
  among: "bays" | "people",
  rows: BoardRows,
): Placed | null {
  const by = { ArrowLeft: -1, ArrowRight: 1 }[key];
  if (by !== undefined)
    return shift
      ? { ...placed, minutes: lengthOver(placed.minutes + by * BOARD_STEP) }
      : { ...placed, from: startWithin(placed.from + by * BOARD_STEP) };
  const row = { ArrowUp: -1, ArrowDown: 1 }[key];
  if (row !== undefined) return toRow(placed, row, among, rows);
  const days = { PageUp: -1, PageDown: 1 }[key];
  return days === undefined ? null : { ...placed, day: dayAfter(placed.day, days) };
}

/** To the row so many further down; it stays where there is none. */
function toRow(placed: Placed, by: number, among: "bays" | "people", rows: BoardRows): Placed {
  const ids = rows[among];
  const at = ids.indexOf(among === "bays" ? placed.bayId : placed.staffId);
  const next = ids[Math.min(Math.max(at + by, 0), ids.length - 1)];
  if (next === undefined) return placed;
  return among === "bays" ? { ...placed, bayId: next } : { ...placed, staffId: next };
}

/** Whether two places are the same. */
export const samePlace = (a: Placed, b: Placed): boolean =>
  a.day === b.day &&
  a.from === b.from &&
  a.minutes === b.minutes &&
  a.bayId === b.bayId &&
  a.staffId === b.staffId;
