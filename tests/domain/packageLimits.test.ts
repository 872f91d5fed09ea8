import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkRecipe } from "@/lib/domain/packages/check";
import { choose, chooser, standing } from "@/lib/domain/packages/choose";
import type { Option, OptionGroup, Recipe, Rule } from "@/lib/domain/packages/recipe";
import { no, Sat, yes } from "@/lib/domain/packages/sat";
import { lacks } from "@/lib/domain/packages/supplies";

const holds = (clauses: readonly (readonly number[])[], mask: number) =>
  clauses.every((clause) => clause.some((l) => ((mask >> (l >> 1)) & 1) === ((l & 1) ^ 1)));

describe("the search behind the checks", () => {
  const VARIABLES = 8;
  const literal = fc.nat(2 * VARIABLES - 1);
  const formula = fc.array(fc.array(literal, { minLength: 1, maxLength: 3 }), { maxLength: 40 });
  const asked = fc.uniqueArray(literal, { maxLength: 3, selector: (l) => l >> 1 });

  it("says what trying every choice says, one question after another, and names assumptions that suffice", () => {
    fc.assert(
      fc.property(formula, fc.array(asked, { minLength: 1, maxLength: 5 }), (clauses, questions) => {
        const sat = new Sat(VARIABLES, VARIABLES);
        for (const clause of clauses) sat.add(clause);
        const possible = (given: readonly number[]) =>
          Array.from({ length: 2 ** VARIABLES }, (_, m) => m).some(
            (m) =>
              holds(clauses, m) &&
              holds(
                given.map((l) => [l]),
                m,
              ),
          );
        for (const given of questions) {
          const found = sat.solve(given, { left: 100_000 });
          expect(found.can).toBe(possible(given));
          if (found.can) {
            const mask = [...found.on].reduce((m, v) => m | (1 << v), 0);
            expect(holds([...clauses, ...given.map((l) => [l])], mask)).toBe(true);
          } else if (found.can === false) {
            expect(given).toEqual(expect.arrayContaining([...found.core]));
            expect(possible(found.core)).toBe(false);
          }
        }
      }),
      { numRuns: 1500 },
    );
  });

  it("stops when its steps are spent, says so, and is right again with more of them", () => {
    // Seven things in six places: it cannot be, and this kind of search has no short proof of it.
    const [things, places] = [7, 6];
    const at = (thing: number, place: number) => thing * places + place;
    const sat = new Sat(things * places, things * places);
    for (let t = 0; t < things; t++) sat.add(Array.from({ length: places }, (_, p) => yes(at(t, p))));
    for (let p = 0; p < places; p++)
      for (let t = 0; t < things; t++) for (let u = 0; u < t; u++) sat.add([no(at(t, p)), no(at(u, p))]);
    const steps = { left: 2000 };
    expect(sat.solve([], steps)).toEqual({ can: null });
    expect(steps.left).toBeGreaterThan(-2000);
    expect(sat.solve([], { left: 500_000_000 })).toEqual({ can: false, core: [] });
  });

  it("never says wrong, however few steps it has", () => {
    fc.assert(
      fc.property(formula, asked, fc.nat(300), (clauses, given, left) => {
        const sat = new Sat(VARIABLES, VARIABLES);
        for (const clause of clauses) sat.add(clause);
        const early = sat.solve(given, { left });
        const late = sat.solve(given, { left: 100_000 });
        if (early.can !== null) expect(early.can).toBe(late.can);
      }),
      { numRuns: 500 },
    );
  });
});

const option = (key: string, group: string, more: Partial<Option> = {}): Option => ({
  key,
  group,
  name: key,
  plain: "",
  operations: [],
  parts: [],
  changes: [],
  cautions: [],
  preset: false,
  roadUse: false,
  ...more,
});
const recipe = (groups: OptionGroup[], options: Option[], rules: Rule[]): Recipe => ({
  format: "throttlewright-recipe",
  version: 2,
  groups,
  options,
  operations: [],
  accesses: [],
  rules,
});
const pair = (n: number): OptionGroup => ({ key: `g${n}`, name: `g${n}`, choose: "exactly one" });

/** Pairs to choose from freely, and behind them two pairs that exclude each other in every way. */
function freePairs(count: number, broken: boolean): Recipe {
  const groups = Array.from({ length: count + 2 }, (_, n) => pair(n));
  const options = groups.flatMap((g, n) => ["a", "b"].map((side) => option(`${side}${n}`, g.key)));
  const ways = ["aa", "ab", "ba", "bb"].slice(0, broken ? 4 : 3);
  const rules = ways.map(
    ([one, other]): Rule => ({
      kind: "excludes",
      option: `${one}${count}`,
      other: `${other}${count + 1}`,
      why: "w",
    }),
  );
  return recipe(groups, options, rules);
}

describe("a recipe within the limits of its shape", () => {
  it("is decided although twenty-eight free pairs stand before what clashes", () => {
    const [problem, ...rest] = checkRecipe(freePairs(28, true));
    expect(rest).toEqual([]);
    expect(problem?.message).toMatch(
      /^Nothing can be chosen: “g28” takes exactly one of “a28”, “b28”; “g29”/,
    );
    expect(problem?.names).toEqual(["g28", "g29", "a28", "a29", "b29", "b28"]);
    // With three ways barred the last one is left: the other two options are dead, each for a reason of its own.
    const dead = checkRecipe(freePairs(28, false));
    expect(dead.map((p) => [p.kind, p.names[0]])).toEqual([
      ["clash", "a28"],
      ["clash", "a29"],
    ]);
  });

  it("settles sixty ticks of a bike in one go, as ticking one after another would", () => {
    const [whole, facts] = [freePairs(28, false), {}];
    const all = whole.options.map((o) => o.key);
    const stand = standing(whole, all, facts);
    expect(stand).toEqual([...Array.from({ length: 28 }, (_, n) => `a${n}`), "b28", "b29"]);
    const choice = choose(whole, stand, facts);
    expect(choice.valid).toBe(true);
    expect(choice.forbidden).toHaveLength(30);
    const forbidden = (key: string) => choice.forbidden.find((f) => f.option === key);
    expect(forbidden("b0")?.undoes).toEqual(["a0"]);
    expect(forbidden("a28")).not.toHaveProperty("undoes");
    expect(chooser(whole, facts)(stand)).toEqual({ chosen: choice.chosen, valid: true });
  });

  it("is not to be published where the check ran into its limit, and says so", () => {
    const problems = checkRecipe(freePairs(28, true), 0);
    expect(problems.map((p) => p.kind)).toEqual(["undecided"]);
    expect(problems[0]?.message).toMatch(/could not be decided within the limit of the check/);
    const apart = [100, 110].map((value, n) =>
      option(`o${n}`, "g0", { changes: [{ setting: "mainJet", change: "set", value }] }),
    );
    const any: OptionGroup = { key: "g0", name: "g0", choose: "any" };
    expect(checkRecipe(recipe([any], apart, [])).map((p) => p.kind)).toEqual(["setting"]);
  });

  it("is told right or not at all, whatever the limit", () => {
    const whole = freePairs(6, false);
    const kinds = new Set<string>();
    for (let steps = 0; steps < 6000; steps += 37)
      for (const problem of checkRecipe(whole, steps)) {
        kinds.add(problem.kind);
        if (problem.kind === "clash") expect(["a6", "a7"]).toContain(problem.names[0]);
      }
    expect([...kinds].sort()).toEqual(["clash", "undecided"]);
  });

  it("names at most twenty dead ends and two hundred problems at once", () => {
    const groups: OptionGroup[] = [{ key: "g", name: "g", choose: "any" }];
    const options = Array.from({ length: 60 }, (_, n) => option(`o${n}`, "g"));
    const rules = options.map(({ key }): Rule => ({ kind: "excludes", option: key, other: key, why: "w" }));
    const problems = checkRecipe(recipe(groups, options, rules));
    expect(problems.filter((p) => p.kind === "clash")).toHaveLength(20);
    const stray = Array.from({ length: 60 }, (_, n) => `lost ${n}`);
    const lost = options.map((o) => ({ ...o, operations: stray }));
    expect(checkRecipe(recipe(groups, lost, []))).toHaveLength(200);
  });

  it("names every part the shop lacks once, with all the places that name it", () => {
    const code = (n: number) => ({ kind: "part" as const, code: `P${n}`, quantityMilli: 1000 });
    const options = Array.from({ length: 60 }, (_, n) =>
      option(`o${n}`, "g", {
        parts: [code(0), ...Array.from({ length: 59 }, (_x, k) => code(n * 100 + k + 1))],
      }),
    );
    const found = lacks({ options, operations: [] }, { codes: ["P1"], families: [], grades: [] });
    expect(found).toHaveLength(60 * 59);
    expect(found[0]).toEqual({ what: "part", name: "P0", where: options.map((o) => `option “${o.name}”`) });
  });
});
