/**
 * The same precedence in fewest pairs: an item keeps only those before it that come before no other of them (the transitive
 * reduction, Aho, Garey and Ullman 1972). Items in a circle keep what they had.
 */
export function fewestPairs(before: readonly (readonly number[])[]): number[][] {
  const earlier: bigint[] = before.map(() => 0n);
  const known = before.map(() => false);
  const bit = (item: number) => 1n << BigInt(item);
  for (let grown = true; grown; ) {
    grown = false;
    for (const [item, items] of before.entries())
      if (!known[item] && items.every((one) => known[one])) {
        earlier[item] = items.reduce((set, one) => set | bit(one) | (earlier[one] ?? 0n), 0n);
        known[item] = true;
        grown = true;
      }
  }
  return before.map((items, item) => {
    const each = [...new Set(items)];
    if (!known[item]) return each;
    const further = each.reduce((set, one) => set | (earlier[one] ?? 0n), 0n);
    return each.filter((one) => (further & bit(one)) === 0n);
  });
}
