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

/** The newest reading of a hold point that measures a setting. */
export interface SettingReading {
  readonly position: number;
  readonly setting: string;
  /** Null for the only carburettor, or the whole engine. */
  readonly carburettor: number | null;
  readonly value: number;
}

/** Settings of the engine, one for all its carburettors; sheets keep them with the first. */
const OF_THE_ENGINE = ["idleSpeedRpm"];

/**
 * Readings of a card as values of a sheet, measured. A reading taken before a step that makes its setting tells what was found;
 * one taken at that step or later tells what is left; where no step makes it, it tells both. Without a carburettor's number a
 * reading counts for the only carburettor, or for the first where the setting is one of the whole engine.
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
    const carburettor =
      reading.carburettor ?? (carburettors === 1 || OF_THE_ENGINE.includes(setting) ? 1 : null);
    if (carburettor === null || carburettor > carburettors) continue;
    const made = steps.filter((step) => !step.skipped && madeWith(step.makes).includes(setting));
    const known: KnownValue = { carburettor, setting, value, how: "measured" };
    const place = `${carburettor} ${setting}`;
    if (made.every((step) => position < step.position)) found.set(place, known);
    if (made.length === 0 || made.some((step) => position >= step.position)) left.set(place, known);
  }
  return { found: [...found.values()], left: [...left.values()] };
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
