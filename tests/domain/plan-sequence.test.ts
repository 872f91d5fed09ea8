import { readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { leastOrder, type SequenceProblem } from "@/lib/domain/plan/sequence";
import { Refusal } from "@/lib/domain/refusal";
import { reference } from "../support/references";

/** A sequential ordering problem as TSPLIB95 writes it: entry -1 in row i, column j means j comes before i. */
function readSop(text: string): { problem: SequenceProblem; matrix: number[][] } {
  const numbers = text
    .slice(text.indexOf("EDGE_WEIGHT_SECTION") + "EDGE_WEIGHT_SECTION".length, text.lastIndexOf("EOF"))
    .trim()
    .split(/\s+/)
    .map(Number);
  const count = Number(/DIMENSION:\s*(\d+)/.exec(text)?.[1]);
  const values = numbers.length === count * count + 1 ? numbers.slice(1) : numbers;
  expect(values).toHaveLength(count * count);
  const matrix = Array.from({ length: count }, (_, i) => values.slice(i * count, (i + 1) * count));
  return { matrix, problem: fromMatrix(matrix) };
}

function fromMatrix(matrix: number[][]): SequenceProblem {
  const start = matrix.length;
  return {
    count: matrix.length,
    before: matrix.map((row) => row.flatMap((value, j) => (value === -1 ? [j] : []))),
    start,
    step: (last, item) => ({ state: item, cost: last === start ? 0 : (matrix[last]?.[item] ?? Number.NaN) }),
  };
}

function costOf(problem: SequenceProblem, order: readonly number[]): number {
  let state = problem.start;
  let total = 0;
  for (const item of order) {
    const next = problem.step(state, item);
    state = next.state;
    total += next.cost;
  }
  return total;
}

function keepsPrecedence(problem: SequenceProblem, order: readonly number[]): boolean {
  return order.every((item, at) => (problem.before[item] ?? []).every((b) => order.indexOf(b) < at));
}

function permutations(items: number[]): number[][] {
  if (items.length < 2) return [items];
  return items.flatMap((item, i) => permutations(items.toSpliced(i, 1)).map((rest) => [item, ...rest]));
}

describe("published sequential ordering problems (TSPLIB95, Reinelt; received from Ascheuer and Escudero)", () => {
  for (const [name, best] of [
    ["ESC07", 2125],
    ["ESC12", 1675],
  ] as const) {
    const file = reference(`sequencing/${name}.sop`);
    it.skipIf(file === null)(
      `${name} is solved to its published optimum ${best}${file === null ? " (problem file not present: not run)" : ""}`,
      () => {
        const { problem } = readSop(readFileSync(file ?? "", "utf8"));
        const found = leastOrder(problem);
        expect(found.cost).toBe(best);
        expect(found.exact).toBe(true);
        expect([...found.order].sort((a, b) => a - b)).toEqual(
          Array.from({ length: problem.count }, (_, i) => i),
        );
        expect(keepsPrecedence(problem, found.order)).toBe(true);
        expect(costOf(problem, found.order)).toBe(best);
      },
    );
  }
});

const randomProblem = (most: number, least = 1) =>
  fc.integer({ min: least, max: most }).chain((count) =>
    fc
      .record({
        costs: fc.array(fc.integer({ min: 0, max: 50 }), {
          minLength: count * count,
          maxLength: count * count,
        }),
        links: fc.array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1)), { maxLength: count }),
      })
      .map(({ costs, links }) => {
        const matrix = Array.from({ length: count }, (_, i) => costs.slice(i * count, (i + 1) * count));
        // A link points from the smaller to the larger number, so the precedence cannot run in a circle.
        for (const [a, b] of links) if (a !== b) (matrix[Math.max(a, b)] ?? [])[Math.min(a, b)] = -1;
        return matrix;
      }),
  );

describe("the order of least cost", () => {
  it("equals trying every order, for up to eight items", () => {
    fc.assert(
      fc.property(randomProblem(7), (matrix) => {
        const problem = fromMatrix(matrix);
        const all = permutations(matrix.map((_, i) => i)).filter((order) => keepsPrecedence(problem, order));
        const least = Math.min(...all.map((order) => costOf(problem, order)));
        const found = leastOrder(problem);
        expect(found.cost).toBe(least);
        expect(costOf(problem, found.order)).toBe(least);
        expect(keepsPrecedence(problem, found.order)).toBe(true);
      }),
      { numRuns: 60 },
    );
    const eight = fc.sample(randomProblem(8, 8), { numRuns: 3, seed: 8 });
    for (const matrix of eight) {
      const problem = fromMatrix(matrix);
      const all = permutations(matrix.map((_, i) => i)).filter((order) => keepsPrecedence(problem, order));
      expect(leastOrder(problem).cost).toBe(Math.min(...all.map((order) => costOf(problem, order))));
    }
  });

  it("for long lists keeps precedence, is no better than its bound, and says when it is not proven", () => {
    fc.assert(
      fc.property(randomProblem(56, 17), (matrix) => {
        const problem = fromMatrix(matrix);
        const found = leastOrder(problem);
        expect(new Set(found.order).size).toBe(matrix.length);
        expect(keepsPrecedence(problem, found.order)).toBe(true);
        expect(costOf(problem, found.order)).toBe(found.cost);
        expect(found.bound).toBeLessThanOrEqual(found.cost);
        expect(found.exact).toBe(found.bound === found.cost);
      }),
      { numRuns: 6 },
    );
  });

  it("refuses items that must come before themselves", () => {
    const problem: SequenceProblem = {
      count: 2,
      before: [[1], [0]],
      start: 0,
      step: () => ({ state: 0, cost: 0 }),
    };
    expect(() => leastOrder(problem)).toThrow(Refusal);
  });

  it("puts nothing in order at no cost", () => {
    expect(leastOrder({ count: 0, before: [], start: 0, step: () => ({ state: 0, cost: 1 }) })).toEqual({
      order: [],
      cost: 0,
      bound: 0,
      exact: true,
    });
  });
});
