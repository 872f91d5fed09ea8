import type { Work } from "./work";

/** The dearest crossings say most; the rest would take more time than they save. */
const MOST_CROSSINGS = 24;
/** What looking at one item of a crossing takes, in units of work. */
const LOOK = 4;

export interface CrossingsInput {
  /** For each item, the accesses that are open while it is done, by place. */
  readonly needs: readonly (readonly number[])[];
  readonly charges: readonly number[];
  readonly exclude: (one: number, other: number) => boolean;
  /** Spent by what the bound takes. */
  readonly work: Work;
}

/** Items that need one access of each of two sides: which ones, as corners between them. */
interface Crossing {
  readonly sides: readonly [number, number];
  /** 0 for an access of the first side, 1 for one of the second. */
  readonly ends: ReadonlyMap<number, number>;
  readonly corners: ReadonlyMap<number, readonly [number, number]>;
  readonly charge: number;
}

/** What one crossing adds where these accesses are open now. */
export type Crossed = (openNow: readonly number[]) => number;

/**
 * Minutes of opening beside those of opening each access once. A side is a set of accesses that all exclude one another, so one of
 * them is open at a time. Where items need one access of side P and one of side Q, they are edges of a graph between the two, and
 * going from one edge to another opens at least the ends that are new; two that are open now are one more edge, gone to already.
 * To go along E edges over V accesses in C connected parts takes 2 + (E - 1) + (C - 1) openings or more, less what is open at the
 * start; each access once are V, less the same. What is over, E - V + C, is the number of edges that close a cycle, and each costs
 * at least the cheapest access there. Crossings that share no side count different openings, so they add up. An access counts here
 * where it is bounded by `once` opening while it is closed and is not opened `again` while it is open. Source: own proof, checked
 * against trying every order.
 */
export function crossingsBound(
  input: CrossingsInput,
): (remaining: readonly number[], once: readonly boolean[], again: readonly boolean[]) => Crossed[] {
  const sides = sidesOf(input);
  const crossings = sides
    .flatMap((one, i) => sides.slice(i + 1).map((other, j) => crossingOf(input, [i, i + 1 + j], one, other)))
    .map((crossing) => {
      const all = goAlong(crossing, [...crossing.corners.keys()], []);
      return { ...crossing, most: all.cycles * crossing.charge };
    })
    .filter(({ most }) => most > 0)
    .sort((a, b) => b.most - a.most)
    .slice(0, MOST_CROSSINGS);
  input.work.left -= sides.length * sides.length * input.needs.length * LOOK;
  return (remaining, once, again) => {
    const taken = new Set<number>();
    input.work.left -= crossings.length * (20 + remaining.length * LOOK);
    const gone = crossings
      .map((crossing) => ({ ...crossing, ...goAlong(crossing, remaining, once) }))
      .filter(({ edges }) => edges.size >= 3);
    // Those that close a cycle come first; others may with what is open now.
    return [...gone.filter((one) => one.cycles > 0), ...gone].flatMap((one): Crossed[] => {
      if (one.sides.some((side) => taken.has(side))) return [];
      for (const side of one.sides) taken.add(side);
      return [(openNow) => minutesOf(one, openNow, again)];
    });
  };
}

/** A crossing with the edges that are left of it. */
interface Gone extends Crossing {
  readonly cycles: number;
  readonly edges: ReadonlySet<number>;
  /** By access: a number for the part of the graph that it is connected with. */
  readonly part: ReadonlyMap<number, number>;
}

function minutesOf(
  { ends, edges, part, cycles, charge }: Gone,
  openNow: readonly number[],
  again: readonly boolean[],
): number {
  let [one, other] = [-1, -1];
  for (const access of openNow) {
    const end = ends.get(access);
    if (end === undefined) continue;
    // Bounded in another way while it is open.
    if (again[access] && part.has(access)) return 0;
    if (end === 0) one = access;
    else other = access;
  }
  const closes =
    one >= 0 &&
    other >= 0 &&
    part.has(one) &&
    part.get(one) === part.get(other) &&
    !edges.has(edgeOf(one, other));
  return (cycles + (closes ? 1 : 0)) * charge;
}

function sidesOf({ charges, exclude }: CrossingsInput): number[][] {
  const sides: number[][] = [];
  for (const access of charges.keys()) {
    const fits = sides.find((side) => side.every((other) => exclude(access, other)));
    if (fits) fits.push(access);
    else sides.push([access]);
  }
  return sides.filter((side) => side.length > 1);
}

function crossingOf(
  { needs, charges }: CrossingsInput,
  sides: readonly [number, number],
  one: readonly number[],
  other: readonly number[],
): Crossing {
  const corners = new Map<number, readonly [number, number]>();
  for (const [item, list] of needs.entries()) {
    const [a, b] = [one, other].map((side) => list.find((access) => side.includes(access)));
    if (a !== undefined && b !== undefined) corners.set(item, [a, b]);
  }
  const charge = Math.min(...[...corners.values()].flat().map((access) => charges[access] ?? 0));
  const ends = new Map([
    ...one.map((access) => [access, 0] as const),
    ...other.map((access) => [access, 1] as const),
  ]);
  return { sides, ends, corners, charge };
}

const edgeOf = (one: number, other: number): number => one * 2 ** 20 + other;

/** The edges that items make, each once; how many of them close a cycle; and how the accesses are connected by them. */
function goAlong(
  { corners }: Crossing,
  items: readonly number[],
  once: readonly boolean[],
): Pick<Gone, "cycles" | "edges" | "part"> {
  const parent = new Map<number, number>();
  const root = (access: number): number => {
    const up = parent.get(access) ?? access;
    return up === access ? access : root(up);
  };
  const edges = new Set<number>();
  let cycles = 0;
  for (const item of items) {
    const corner = corners.get(item);
    if (!corner?.every((access) => once[access] !== false)) continue;
    const [one, other] = corner;
    if (edges.has(edgeOf(one, other))) continue;
    edges.add(edgeOf(one, other));
    for (const access of corner) if (!parent.has(access)) parent.set(access, access);
    if (root(one) === root(other)) cycles++;
    else parent.set(root(one), root(other));
  }
  return { cycles, edges, part: new Map([...parent.keys()].map((access) => [access, root(access)])) };
}
