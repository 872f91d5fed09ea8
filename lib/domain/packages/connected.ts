/** For each item, the places of those that share a name with it. */
export function neighbours(namesOf: readonly (readonly string[])[]): number[][] {
  const byName = Map.groupBy(
    namesOf.flatMap((names, at) => names.map((name) => ({ name, at }))),
    (one) => one.name,
  );
  return namesOf.map((names, at) => {
    const near = new Set(names.flatMap((name) => (byName.get(name) ?? []).map((one) => one.at)));
    near.delete(at);
    return [...near].sort((a, b) => a - b);
  });
}

/**
 * Sets of `size` places that hold one of `seeds` and hang together by neighbours, each set once, in rising order. Ends once
 * `tries` are used up.
 */
export function connected(
  near: readonly (readonly number[])[],
  seeds: readonly number[],
  size: number,
  tries: { left: number },
): number[][] {
  let sets = new Map(seeds.map((at) => [String(at), [at]]));
  for (let grown = 1; grown < size; grown++) {
    const next = new Map<string, number[]>();
    for (const set of sets.values())
      for (const at of set.flatMap((one) => near[one] ?? [])) {
        if (next.size > tries.left) break;
        if (set.includes(at)) continue;
        const more = [...set, at].sort((a, b) => a - b);
        next.set(more.join(), more);
      }
    sets = next;
  }
  const found = [...sets.values()].slice(0, Math.max(0, tries.left));
  tries.left -= found.length;
  return found.sort((a, b) => a.map((at, i) => at - (b[i] ?? 0)).find((gap) => gap !== 0) ?? 0);
}
