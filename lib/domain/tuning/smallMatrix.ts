import { Refusal } from "../refusal";

/** Inverse of a small well-conditioned square matrix, Gauss-Jordan with row pivots. Refuses a singular one. */
export function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...Array.from({ length: n }, (_, j) => (i === j ? 1 : 0))]);
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let i = c + 1; i < n; i++)
      if (Math.abs(rows[i]?.[c] ?? 0) > Math.abs(rows[pivot]?.[c] ?? 0)) pivot = i;
    const chosen = rows[pivot];
    const head = chosen?.[c] ?? 0;
    if (!chosen || Math.abs(head) < 1e-14)
      throw new Refusal("The measurements do not determine a result.", "Measure at more throttle positions.");
    rows[pivot] = rows[c] ?? [];
    rows[c] = chosen.map((v) => v / head);
    rows.forEach((row, i) => {
      const factor = row[c] ?? 0;
      if (i !== c && factor !== 0) rows[i] = row.map((v, j) => v - factor * (rows[c]?.[j] ?? 0));
    });
  }
  return rows.map((row) => row.slice(n));
}
