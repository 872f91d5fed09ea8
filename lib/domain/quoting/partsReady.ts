import type { QuotePart } from "./parts";

/** When the parts of a quote can all be there. */
export interface PartsReady {
  /** The earliest day on which everything that is short can be there; null where nothing is short or nobody knows. */
  readonly on: string | null;
  /** Names of parts that are short and that nobody knows the day of. */
  readonly unknown: readonly string[];
  /** Lines that are short. */
  readonly short: number;
}

/** The last of the days on which what is short can be there, as of the day of the quote's facts. */
export function partsReady(parts: readonly QuotePart[]): PartsReady {
  const waits = parts.flatMap(({ name, arrival }) => (arrival ? [{ name, on: arrival.on }] : []));
  const unknown = [...new Set(waits.filter((w) => w.on === null).map((w) => w.name))];
  const on = waits.reduce<string | null>(
    (last, w) => (w.on !== null && w.on > (last ?? "") ? w.on : last),
    null,
  );
  return { on: unknown.length > 0 ? null : on, unknown, short: waits.length };
}
