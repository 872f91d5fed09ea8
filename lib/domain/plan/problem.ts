/**
 * Putting items in the order of least total cost, where some come before others and the cost of an item depends on the
 * state the items before it left behind. The sequential ordering problem (Escudero 1988) is the case "state = last item".
 */
export interface SequenceProblem {
  readonly count: number;
  /** For each item, those that must come before it. */
  readonly before: readonly (readonly number[])[];
  /** States are numbers; equal numbers mean equal futures. */
  readonly start: number;
  readonly step: (state: number, item: number) => { readonly state: number; readonly cost: number };
  /** For the remaining items, a cost that they cannot fall below from a state. Absent: 0. */
  readonly bound?: (remaining: readonly number[]) => (state: number) => number;
  /** An item among `ready` that can be next without making the best order dearer, or undefined when it is not clear. */
  readonly settled?: (state: number, ready: readonly number[]) => number | undefined;
  /** What items use and what using it costs, for a quick guess at what remains. Absent: no guess. */
  readonly uses?: Uses;
}

export interface Uses {
  /** For each item, the things it uses, by place. */
  readonly needs: readonly (readonly number[])[];
  /** What it costs to have each thing, once. */
  readonly charges: readonly number[];
  /** The things to be had for nothing in a state. */
  readonly openIn: (state: number) => readonly number[];
}

/** Items whose predecessors are all done, in rising order. */
export function readyItems(problem: SequenceProblem, isDone: (item: number) => boolean): number[] {
  const ready: number[] = [];
  for (let item = 0; item < problem.count; item++)
    if (!isDone(item) && (problem.before[item] ?? []).every(isDone)) ready.push(item);
  return ready;
}
