import { inverse } from "./smallMatrix";

/** A Gaussian in information form: precision matrix and precision times mean. Changed in place while it is put together. */
export interface Information {
  readonly precision: number[][];
  readonly pull: number[];
}

export function nothingKnown(size: number): Information {
  return {
    precision: Array.from({ length: size }, () => new Array<number>(size).fill(0)),
    pull: new Array<number>(size).fill(0),
  };
}

const bump = (list: number[] | undefined, at: number, by: number) => {
  if (list) list[at] = (list[at] ?? 0) + by;
};

/** Adds a reading: sum of row times state is `value`, with this weight (one over variance). */
export function addReading(to: Information, row: readonly number[], value: number, weight: number): void {
  for (let i = 0; i < row.length; i++) {
    const a = row[i] ?? 0;
    if (a === 0) continue;
    bump(to.pull, i, weight * a * value);
    const line = to.precision[i];
    for (let j = 0; j < row.length; j++) bump(line, j, weight * a * (row[j] ?? 0));
  }
}

/** Adds information on other states, each of which is the sum of the states of `to` at its places. */
export function addSums(to: Information, more: Information, places: readonly (readonly number[])[]): void {
  places.forEach((at, i) => {
    for (const a of at) {
      bump(to.pull, a, more.pull[i] ?? 0);
      const line = to.precision[a];
      places.forEach((others, j) => {
        const value = more.precision[i]?.[j] ?? 0;
        if (value !== 0) for (const b of others) bump(line, b, value);
      });
    }
  });
}

/** What is left of the first `keep` states when the others are integrated out. Source: Schur complement, identity. */
export function integrateOut(all: Information, keep: number): Information {
  const size = all.pull.length;
  const inner = inverse(all.precision.slice(keep).map((row) => row.slice(keep)));
  const left = nothingKnown(keep);
  for (let i = 0; i < keep; i++) {
    const from = all.precision[i] ?? [];
    const line = left.precision[i];
    for (let j = 0; j < keep; j++) bump(line, j, from[j] ?? 0);
    bump(left.pull, i, all.pull[i] ?? 0);
    for (let k = keep; k < size; k++) {
      let gain = 0;
      for (let l = keep; l < size; l++) gain += (from[l] ?? 0) * (inner[l - keep]?.[k - keep] ?? 0);
      if (gain === 0) continue;
      bump(left.pull, i, -gain * (all.pull[k] ?? 0));
      const row = all.precision[k] ?? [];
      for (let j = 0; j < keep; j++) bump(line, j, -gain * (row[j] ?? 0));
    }
  }
  return left;
}

/** Mean and covariance. Throws Refusal when the evidence determines nothing. */
export function solved(of: Information): { readonly mean: number[]; readonly covariance: number[][] } {
  const covariance = inverse(of.precision);
  return {
    covariance,
    mean: covariance.map((row) => row.reduce((sum, v, j) => sum + v * (of.pull[j] ?? 0), 0)),
  };
}
