/**
 * A shortest cycle in a directed graph, as the names along it (the first is not repeated), or null when there is none.
 * Names that lead nowhere are ignored. Breadth-first search from each name.
 */
export function shortestCycle(
  names: readonly string[],
  next: (name: string) => readonly string[],
): string[] | null {
  const known = new Set(names);
  let best: string[] | null = null;
  for (const start of names) {
    const cameFrom = new Map<string, string>();
    let front = [start];
    // A name that is `steps` away closes a cycle of one more.
    search: for (let steps = 0; front.length > 0 && (best === null || steps + 1 < best.length); steps++) {
      const further: string[] = [];
      for (const name of front) {
        for (const to of next(name)) {
          if (to === start) {
            const path = [name];
            for (let back = cameFrom.get(name); back !== undefined; back = cameFrom.get(back))
              path.unshift(back);
            if (best === null || path.length < best.length) best = path;
            break search;
          }
          if (cameFrom.has(to) || !known.has(to)) continue;
          cameFrom.set(to, name);
          further.push(to);
        }
      }
      front = further;
    }
  }
  return best;
}

/** `names` and all that they lead to, each once. */
export function reach(names: readonly string[], next: (name: string) => readonly string[]): Set<string> {
  const seen = new Set(names);
  for (const name of seen) for (const to of next(name)) seen.add(to);
  return seen;
}
