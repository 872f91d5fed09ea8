import { measurable } from "../tuning/measurables";
import type { SheetValueOf } from "./fitted";
import { madeWith } from "./needleHeights";

/** A value on a sheet, with how it is known. */
export interface KnownValue extends SheetValueOf {
  readonly value: number;
  readonly how: string;
}

/** A step of a card, as far as settings go. */
export interface SettingStep {
  readonly position: number;
  readonly skipped: boolean;
  readonly makes: readonly string[];
}

/** The newest reading of a hold point that measures something. */
export interface SettingReading {
  readonly position: number;
  /** Key of what it measures: lib/domain/tuning/measurables.ts. */
  readonly setting: string;
  /** Null for the only carburettor, or the whole engine. */
  readonly carburettor: number | null;
  readonly value: number;
}

/**
 * Readings of a card as values of a sheet, measured. A reading taken before a step that makes its setting tells what was found;
 * one taken at that step or later tells what is left; where no step makes it, it tells both. A reading of the engine stands with
 * the first carburettor, one of what all carburettors share with each of them; any other without a carburettor's number counts for
 * the only one. Readings of parts that wear are no settings and tell nothing here.
 */
export function readValues(
  steps: readonly SettingStep[],
  readings: readonly SettingReading[],
  carburettors: number,
): { found: KnownValue[]; left: KnownValue[] } {
  const found = new Map<string, KnownValue>();
  const left = new Map<string, KnownValue>();
  for (const reading of readings.toSorted((a, b) => a.position - b.position)) {
    const { setting, value, position } = reading;
    if (measurable(setting)?.kind !== "setting") continue;
    const made = steps.filter((step) => !step.skipped && madeWith(step.makes).includes(setting));
    for (const carburettor of carburettorsRead(setting, reading.carburettor, carburettors)) {
      const known: KnownValue = { carburettor, setting, value, how: "measured" };
      const place = `${carburettor} ${setting}`;
      if (made.every((step) => position < step.position)) found.set(place, known);
      if (made.length === 0 || made.some((step) => position >= step.position)) left.set(place, known);
    }
  }
  return { found: [...found.values()], left: [...left.values()] };
}

/** The carburettors whose value a reading tells; none where nobody said which of several it was. */
function carburettorsRead(measures: string, said: number | null, carburettors: number): number[] {
  const of = measurable(measures)?.of;
  if (of === "engine") return [1];
  if (of === "all carburettors") return Array.from({ length: carburettors }, (_, at) => at + 1);
  const carburettor = said ?? (carburettors === 1 ? 1 : null);
  return carburettor === null || carburettor > carburettors ? [] : [carburettor];
}

/** True where a reading has to say which carburettor it is of. */
export function asksCarburettor(
  hold: { readonly measures: string; readonly carburettor: number | null },
  carburettors: number,
): boolean {
  return carburettors > 1 && hold.carburettor === null && measurable(hold.measures)?.of === "carburettor";
}

/**
 * The target values that the work of a job makes: those that a step makes which was not skipped. A setting that no step names, as
 * in work written before steps named theirs, counts as made where the target changes it.
 */
export function madeValues<T extends SheetValueOf>(
  target: readonly T[],
  steps: readonly SettingStep[],
  changed: (setting: string) => boolean,
): T[] {
  const named = new Set(steps.flatMap((step) => madeWith(step.makes)));
  const made = new Set(steps.filter((step) => !step.skipped).flatMap((step) => madeWith(step.makes)));
  return target.filter(({ setting }) => (named.has(setting) ? made.has(setting) : changed(setting)));
}
