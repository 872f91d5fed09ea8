import type { Access, Operation } from "@/lib/domain/packages/recipe";

/** Work of sixteen operations as places: the accesses each needs, and the operations it comes after. */
type Places = readonly (readonly [uses: readonly number[], after: readonly number[]])[];

export function work(
  places: Places,
  charges: readonly number[],
  apart: (access: number) => readonly number[],
) {
  const accesses = charges.map(
    (minutes, n): Access => ({
      key: `a${n}`,
      name: `a${n}`,
      openMinutes: minutes - 1,
      closeMinutes: 1,
      needs: [],
      excludes: apart(n).map((other) => `a${other}`),
      closingChecks: [],
      cautions: [],
      tools: [],
    }),
  );
  const operations = places.map(
    ([uses, after], n): Operation => ({
      key: `o${n}`,
      name: `o${n}`,
      instruction: "",
      minutes: 5,
      grade: "workshop",
      accesses: uses.map((a) => `a${a}`),
      after: after.map((o) => `o${o}`),
      parts: [],
      holdPoints: [],
      inspects: [],
      cautions: [],
      tools: [],
    }),
  );
  return { operations, accesses };
}

/** The slowest that a random search, then small changes to its worst, found: eight pairs of sides, each operation on up to three. */
export const hardSides = () =>
  work(
    [
      [[8, 1], []],
      [[0, 8], []],
      [[3, 12, 9], []],
      [[6, 3], []],
      [[11, 6, 8], [2]],
      [[12, 5, 11], []],
      [[14], []],
      [[1, 9], []],
      [[1, 10, 5], []],
      [[3, 0, 9], []],
      [[9, 4], []],
      [[2, 11, 7], []],
      [[1, 4], []],
      [[6, 9], []],
      [[1, 15, 12], []],
      [[15, 10], []],
    ],
    [23, 19, 13, 26, 2, 6, 23, 16, 26, 19, 12, 12, 23, 19, 24, 7],
    (access) => [access ^ 1],
  );

/** The slowest of accesses that all exclude one another, fifteen of them, with the work in chains. */
export const hardClique = () =>
  work(
    [[0], [1], [2], [11], [4], [5], [6], [7], [8], [9], [10], [11], [12], [13], [14], [0]].map((uses, n) => [
      uses,
      { 3: [0], 11: [1], 14: [13], 15: [3] }[n as 3] ?? [],
    ]),
    [14, 19, 7, 11, 8, 21, 16, 13, 10, 8, 6, 12, 16, 10, 16],
    (access) => Array.from({ length: 15 }, (_, n) => n).filter((n) => n !== access),
  );
