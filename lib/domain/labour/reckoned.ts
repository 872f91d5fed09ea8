import { allocate } from "../money/allocate";
import { roundHalfAway } from "../money/round";
import type { TimeEntry } from "./entries";

/** A step of a job at a labour grade that the shop has. */
export interface ReckonedStep {
  readonly id: number;
  readonly minutes: number;
  readonly grade: string;
}

/** What was invoiced for a job's labour: whole minutes and the amount, and whether it was the agreed minutes or those spent. */
export interface Billed {
  readonly basis: "fixed" | "asWorked";
  readonly minutes: number;
  readonly minor: number;
}

/** Whole minutes and money; `billed…` null while nothing is invoiced. */
export interface Reckoned {
  readonly plannedMinutes: number;
  readonly spentMinutes: number;
  readonly billedMinutes: number | null;
  readonly plannedMinor: number;
  readonly spentMinor: number;
  readonly billedMinor: number | null;
}

/** The least that is counted apart: one person on one step. `stepId` null is outside the steps, `staffId` null nobody. */
export interface WorkCell extends Reckoned {
  readonly stepId: number | null;
  readonly staffId: number | null;
}

interface Cell {
  readonly stepId: number | null;
  readonly staffId: number | null;
  readonly grade: string;
  readonly ms: number;
}

const MINUTE = 60_000;
const sum = (values: readonly number[]) => values.reduce((all, value) => all + value, 0);

/** Splits a whole number over weights; the first has it all where no weight is above zero. */
function split(whole: number, weights: readonly number[]): number[] {
  if (weights.length === 0) return [];
  return sum(weights) > 0 ? allocate(whole, weights) : weights.map((_, at) => (at === 0 ? whole : 0));
}

function cellsOf(
  steps: readonly ReckonedStep[],
  entries: readonly TimeEntry[],
  loose: string,
  now: number,
): Cell[] {
  const known = new Map(steps.map((step) => [step.id, step]));
  const stepOf = (entry: TimeEntry) => (known.has(entry.stepId ?? 0) ? entry.stepId : null);
  const byStep = Map.groupBy(entries, stepOf);
  const people = (stepId: number | null, grade: string): Cell[] =>
    [...Map.groupBy(byStep.get(stepId) ?? [], (entry) => entry.staffId)].map(([staffId, own]) => ({
      stepId,
      staffId,
      grade,
      ms: sum(own.map((entry) => Math.max(0, (entry.endedAt ?? now) - entry.startedAt))),
    }));
  return [
    ...steps.flatMap((step) => {
      const own = people(step.id, step.grade);
      return own.length > 0 ? own : [{ stepId: step.id, staffId: null, grade: step.grade, ms: 0 }];
    }),
    ...people(null, loose),
  ];
}

/** Money for the minutes of each grade at its rate, rounded once for the grade and split by the weights of its cells. */
function moneyOf(
  cells: readonly Cell[],
  minutes: readonly number[],
  weights: readonly number[],
  rateOf: (grade: string) => number,
): number[] {
  const shares = cells.map(() => 0);
  for (const [grade, own] of Map.groupBy(cells.keys(), (at) => cells[at]?.grade ?? "")) {
    const all = sum(own.map((at) => minutes[at] ?? 0));
    const parts = split(
      roundHalfAway((all * rateOf(grade)) / 60),
      own.map((at) => weights[at] ?? 0),
    );
    own.forEach((at, i) => {
      shares[at] = parts[i] ?? 0;
    });
  }
  return shares;
}

/**
 * Planned, spent and billed labour of a job, cut down to one person on one step in whole minutes and minor units, so that
 * whatever the cells are summed by (step, operation, person, package) comes to the same total. A job's spent minutes are
 * rounded once, to the nearest; a step's planned minutes go to its people by their time; what was billed follows the plan
 * where the agreed was invoiced, and the time where the spent was. A running entry counts up to `now`. Money is at the rates
 * of an hour by grade, `loose` being that of time outside the steps. Source: largest remainder (lib/domain/money/allocate.ts).
 */
export function reckon(
  job: {
    readonly steps: readonly ReckonedStep[];
    readonly entries: readonly TimeEntry[];
    readonly loose: string;
  },
  rateOf: (grade: string) => number,
  billed: Billed | null,
  now: number,
): WorkCell[] {
  const cells = cellsOf(job.steps, job.entries, job.loose, now);
  const ms = cells.map((cell) => cell.ms);
  const spent = split(Math.round(sum(ms) / MINUTE), ms);
  const planned = cells.map(() => 0);
  for (const step of job.steps) {
    const own = [...cells.keys()].filter((at) => cells[at]?.stepId === step.id);
    split(
      step.minutes,
      own.map((at) => ms[at] ?? 0),
    ).forEach((share, i) => {
      planned[own[i] ?? 0] = share;
    });
  }
  const first = billed?.basis === "asWorked" ? ms : planned;
  const weights = sum(first) > 0 ? first : billed?.basis === "asWorked" ? planned : ms;
  const worth = cells.map((cell, at) => (weights[at] ?? 0) * rateOf(cell.grade));
  const billedMinutes = billed && split(billed.minutes, weights);
  const billedMinor = billed && split(billed.minor, sum(worth) > 0 ? worth : weights);
  const plannedMinor = moneyOf(cells, planned, planned, rateOf);
  const spentMinor = moneyOf(cells, spent, ms, rateOf);
  return cells.map(({ stepId, staffId }, at) => ({
    stepId,
    staffId,
    plannedMinutes: planned[at] ?? 0,
    spentMinutes: spent[at] ?? 0,
    billedMinutes: billedMinutes && (billedMinutes[at] ?? 0),
    plannedMinor: plannedMinor[at] ?? 0,
    spentMinor: spentMinor[at] ?? 0,
    billedMinor: billedMinor && (billedMinor[at] ?? 0),
  }));
}

/** Cells summed by what `keyOf` says of them, in the order in which the keys first come. */
export function summedBy<Key>(
  cells: readonly WorkCell[],
  keyOf: (cell: WorkCell) => Key,
): Map<Key, Reckoned> {
  return new Map([...Map.groupBy(cells, keyOf)].map(([key, own]) => [key, summed(own)]));
}

/** All cells as one. */
export function summed(cells: readonly WorkCell[]): Reckoned {
  const of = (pick: (cell: WorkCell) => number) => sum(cells.map(pick));
  const ifBilled = (pick: (cell: WorkCell) => number | null) =>
    cells.some((cell) => pick(cell) !== null) ? of((cell) => pick(cell) ?? 0) : null;
  return {
    plannedMinutes: of((cell) => cell.plannedMinutes),
    spentMinutes: of((cell) => cell.spentMinutes),
    billedMinutes: ifBilled((cell) => cell.billedMinutes),
    plannedMinor: of((cell) => cell.plannedMinor),
    spentMinor: of((cell) => cell.spentMinor),
    billedMinor: ifBilled((cell) => cell.billedMinor),
  };
}
