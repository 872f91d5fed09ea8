/** Rows asked for or written at once: more in one statement would hold the event loop (500 rows took a tenth of a second). */
const CHUNK = 50;

export function chunks<T>(all: readonly T[], size = CHUNK): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
    all.slice(at * size, (at + 1) * size),
  );
}

/** Fetches rows for many keys, some at a time. */
export async function fetched<K, R>(
  keys: readonly K[],
  fetch: (some: K[]) => Promise<R[]>,
  size = CHUNK,
): Promise<R[]> {
  const all: R[] = [];
  for (const some of chunks(keys, size)) all.push(...(await fetch(some)));
  return all;
}
