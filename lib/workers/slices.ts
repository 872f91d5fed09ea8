import { setImmediate } from "node:timers/promises";
import { deserialize, serialize } from "node:v8";

/** Many rows on their way out of a thread: read all at once, twenty thousand would hold the event loop. */
export type Slices<T> = readonly Uint8Array[] & { readonly of?: T };

/** So many rows are read in a millisecond or two. */
const SLICE = 500;

export function sliced<T>(rows: readonly T[]): Slices<T> {
  return Array.from({ length: Math.ceil(rows.length / SLICE) }, (_, at) =>
    serialize(rows.slice(at * SLICE, (at + 1) * SLICE)),
  );
}

/** The rows again, other requests served between slices. */
export async function gathered<T>(slices: Slices<T>): Promise<T[]> {
  const rows: T[] = [];
  for (const slice of slices) {
    for (const row of deserialize(slice) as T[]) rows.push(row);
    await setImmediate();
  }
  return rows;
}
