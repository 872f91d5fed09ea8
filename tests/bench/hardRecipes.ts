import type { Option, OptionGroup, Recipe, Rule } from "@/lib/domain/packages/recipe";
import { work } from "./hardWork";

/** Numbers that look drawn by chance and are the same each time. */
function dice(seed: number): (below: number) => number {
  let state = seed;
  return (below) => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return (state >>> 16) % below;
  };
}

const option = (key: string, group: string, setting: number): Option => ({
  key,
  group,
  name: key,
  plain: "",
  operations: [],
  parts: [],
  changes: [{ setting: "mainJet", change: "set", value: 100 + setting }],
  cautions: [],
  preset: true,
  roadUse: false,
});

const recipe = (groups: OptionGroup[], options: Option[], rules: Rule[]): Recipe => ({
  format: "throttlewright-recipe",
  version: 2,
  groups,
  options,
  rules,
  operations: [],
  accesses: [],
});

const pair = (n: number): OptionGroup => ({ key: `g${n}`, name: `g${n}`, choose: "exactly one" });

/** Pairs to choose from freely, and behind them two pairs that exclude each other in every way. */
export function freePairs(count: number): Recipe {
  const groups = Array.from({ length: count + 2 }, (_, n) => pair(n));
  const options = groups.flatMap((g, n) => ["a", "b"].map((side, at) => option(`${side}${n}`, g.key, at)));
  const rules = ["aa", "ab", "ba", "bb"].map(
    ([one, other]): Rule => ({
      kind: "excludes",
      option: `${one}${count}`,
      other: `${other}${count + 1}`,
      why: "w",
    }),
  );
  return recipe(groups, options, rules);
}

/** As many options, groups and rules as a recipe may have, drawn by chance, each option with a setting of its own. */
export function tangled(seed: number): Recipe {
  const chance = dice(seed);
  const any = () => `o${chance(60)}`;
  const groups = Array.from(
    { length: 40 },
    (_, n): OptionGroup => ({ ...pair(n), choose: n < 20 ? "exactly one" : "any" }),
  );
  const options = Array.from({ length: 60 }, (_, n) => option(`o${n}`, `g${n < 40 ? n >> 1 : n - 20}`, n));
  const rules = Array.from({ length: 120 }, (_, n): Rule => {
    if (n % 3 === 0)
      return {
        kind: "only when",
        option: any(),
        fact: "displacementCc",
        op: "<",
        value: 100 + chance(900),
        why: "w",
      };
    if (n % 3 === 1) return { kind: "excludes", option: any(), other: any(), why: "w" };
    return { kind: "needs", option: any(), anyOf: [any(), any(), any()], why: "w" };
  });
  return recipe(groups, options, rules);
}

/** Work of a size that a package may hold, drawn by chance: operations, accesses, pairs of them that exclude each other. */
export function drawnWork(count: number, accesses: number, exclusions: number) {
  const chance = dice(count + accesses + exclusions);
  const apart = Array.from({ length: accesses }, () => new Set<number>());
  for (let n = 0; n < exclusions; n++) {
    const [a, b] = [chance(accesses), chance(accesses)];
    if (a === b) continue;
    apart[a]?.add(b);
    apart[b]?.add(a);
  }
  const places = Array.from({ length: count }, (_, i): [number[], number[]] => {
    const uses: number[] = [];
    for (let n = 0; n < 4; n++) {
      const a = chance(accesses);
      if (!uses.some((other) => other === a || apart[a]?.has(other))) uses.push(a);
    }
    return [uses, i > 0 && chance(10) < 3 ? [chance(i)] : []];
  });
  const charges = Array.from({ length: accesses }, () => 2 + chance(28));
  return work(places, charges, (access) => [...(apart[access] ?? [])]);
}
