import type { Recheck } from "../packages/recipe";

/** Rechecks of one job as few as there are distances and times: what is due together is said together, each thing once. */
export function together(rechecks: readonly Recheck[]): Recheck[] {
  const due = new Map<string, Recheck>();
  for (const one of rechecks) {
    const key = `${one.km} ${one.days}`;
    const there = due.get(key);
    const known = there?.what.split("; ") ?? [];
    due.set(key, {
      ...one,
      what: (known.includes(one.what) ? known : [...known, one.what]).join("; "),
    });
  }
  return [...due.values()];
}
