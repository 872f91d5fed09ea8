import type { Access, Operation } from "@/lib/domain/packages/recipe";

/** Least minutes by trying, for every order of operations, every set of accesses that may be left open in between. */
export function bruteMinutes(operations: Operation[], accesses: Access[], openNow: string[]): number {
  const legal = (set: string[]) =>
    set.every((key) => {
      const a = accesses.find((x) => x.key === key) as Access;
      return (
        a.needs.every((n) => set.includes(n)) &&
        set.every(
          (other) =>
            !a.excludes.includes(other) &&
            !(accesses.find((x) => x.key === other) as Access).excludes.includes(key),
        )
      );
    });
  const sets = Array.from({ length: 2 ** accesses.length }, (_, m) =>
    accesses.filter((_, i) => m & (1 << i)).map((a) => a.key),
  ).filter(legal);
  const move = (from: string[], to: string[]) =>
    accesses.reduce((sum, a) => {
      if (from.includes(a.key) === to.includes(a.key)) return sum;
      return sum + (to.includes(a.key) ? a.openMinutes : a.closeMinutes);
    }, 0);
  const memo = new Map<string, number>();
  const rest = (done: number, from: string[]): number => {
    const key = `${done} ${from.join()}`;
    const known = memo.get(key);
    if (known !== undefined) return known;
    let best = done === 2 ** operations.length - 1 ? move(from, []) : Infinity;
    for (const [i, op] of operations.entries()) {
      if (done & (1 << i)) continue;
      if (op.after.some((k) => operations.some((o, j) => o.key === k && !(done & (1 << j))))) continue;
      for (const to of sets.filter((set) => op.accesses.every((a) => set.includes(a))))
        best = Math.min(best, move(from, to) + op.minutes + rest(done | (1 << i), to));
    }
    memo.set(key, best);
    return best;
  };
  return rest(0, openNow);
}
