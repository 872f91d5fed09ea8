import { measurable } from "../tuning/measurables";
import type { SheetValueOf } from "./fitted";

/** A reading of a card, in the order of its steps. */
export interface CardReading {
  readonly name: string;
  readonly unit: string;
  /** Key of what it measures; empty where nothing is kept of it. */
  readonly measures: string;
  readonly station: number | null;
  readonly carburettor: number | null;
  readonly value: number;
  readonly low: number | null;
  readonly high: number | null;
  /** Why an owner let it pass outside its limits; empty otherwise. */
  readonly overrideReason: string;
}

/** A needle's diameters at one station. */
export interface NeedleRow {
  readonly carburettor: number;
  readonly atMm: number;
  readonly found: number | null;
  readonly left: number | null;
}

/** Diameters and places nearer than this are one, mm. */
const SAME_MM = 0.0005;

/** A reading as it goes home: the last one of a part, and the first where it was read again. */
export interface HandedReading extends CardReading {
  readonly found: number | null;
}

/**
 * The readings that are told beside the settings as left. One that measures a setting of the as-left sheet is told there, once; only
 * why it was let pass is left to say. The same holds for a needle's diameter that stands among its stations. A part that was read
 * several times has one line.
 */
export function handedReadings(
  readings: readonly CardReading[],
  asLeft: readonly SheetValueOf[],
  needles: readonly NeedleRow[] = [],
): { readonly readings: readonly HandedReading[]; readonly letPass: readonly CardReading[] } {
  const told = (one: CardReading) =>
    toldOfNeedle(one, needles) ||
    (measurable(one.measures)?.kind === "setting" &&
      asLeft.some(
        (left) =>
          left.setting === one.measures && (one.carburettor === null || left.carburettor === one.carburettor),
      ));
  const beside = readings.filter((one) => !told(one));
  const lines = Map.groupBy(beside, (one, at) =>
    one.measures === "" ? at : `${one.measures} ${one.carburettor ?? ""} ${one.station ?? ""}`,
  );
  return {
    readings: [...lines.values()].flatMap((own): HandedReading[] => {
      const [first, last] = [own[0], own.at(-1)];
      if (!first || !last) return [];
      return [{ ...last, found: own.length > 1 ? first.value : null }];
    }),
    letPass: readings.filter((one) => told(one) && one.overrideReason !== ""),
  };
}

/** True where a needle's table has this very reading: at its station, or at any of them where it is of the straight part. */
function toldOfNeedle(one: CardReading, needles: readonly NeedleRow[]): boolean {
  const is = (mm: number | null) => mm !== null && Math.abs(mm - one.value) < SAME_MM;
  return (
    one.measures === "needleMm" &&
    needles.some(
      (row) =>
        (one.carburettor === null || row.carburettor === one.carburettor) &&
        (one.station === null || Math.abs(row.atMm - one.station) < SAME_MM) &&
        (is(row.found) || is(row.left)),
    )
  );
}
