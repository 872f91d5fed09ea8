/** Rows asked for at once: SQLite takes at most 32,766 bound values in one statement. */
export const CHUNK = 500;

export function chunks<T>(all: readonly T[], size = CHUNK): T[][] {
  return Array.from({ length: Math.ceil(all.length / size) }, (_, at) =>
    all.slice(at * size, (at + 1) * size),
  );
}

/** Fetches rows for many keys, some hundreds at a time. */
export async function fetched<K, R>(keys: readonly K[], fetch: (some: K[]) => Promise<R[]>): Promise<R[]> {
  const all: R[] = [];
  for (const some of chunks(keys)) all.push(...(await fetch(some)));
  return all;
}
