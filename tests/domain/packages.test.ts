import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkRecipe } from "@/lib/domain/packages/check";
import { choose, presetChoice } from "@/lib/domain/packages/choose";
import { shortestCycle } from "@/lib/domain/packages/cycle";
import { couldAllHold, meets } from "@/lib/domain/packages/facts";
import { needs } from "@/lib/domain/packages/needs";
import type { Access, Operation, Option, OptionGroup, Recipe, Rule } from "@/lib/domain/packages/recipe";
import { tick } from "@/lib/domain/packages/ticks";
import { Refusal } from "@/lib/domain/refusal";
import { RecipeSchema } from "@/lib/schemas/recipe";

const option = (key: string, group: string, more: Partial<Option> = {}): Option => ({
  key,
  group,
  name: key.toUpperCase(),
  plain: "",
  operations: [],
  parts: [],
  changes: [],
  cautions: [],
  preset: false,
  roadUse: false,
  ...more,
});
const operation = (key: string, more: Partial<Operation> = {}): Operation => ({
  key,
  name: key,
  instruction: "",
  minutes: 10,
  grade: "tuner",
  accesses: ["tank"],
  after: [],
  parts: [],
  holdPoints: [],
  inspects: [],
  cautions: [],
  tools: [],
  ...more,
});
const access = (key: string, more: Partial<Access> = {}): Access => ({
  key,
  name: key,
  openMinutes: 5,
  closeMinutes: 5,
  needs: [],
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
  ...more,
});
const recipe = (
  groups: OptionGroup[],
  options: Option[],
  rules: Rule[],
  more: Partial<Recipe> = {},
): Recipe => ({
  format: "throttlewright-recipe",
  version: 2,
  groups,
  options,
  rules,
  operations: [],
  accesses: [access("tank")],
  ...more,
});
const group = (key: string, choose: OptionGroup["choose"]): OptionGroup => ({ key, name: key, choose });

const stage = recipe(
  [group("air", "exactly one"), group("fuel", "exactly one"), group("extra", "any")],
  [
    option("closed", "air", { preset: true }),
    option("snorkel", "air"),
    option("opened", "air", { roadUse: true, cautions: ["Louder."] }),
    option("same-jet", "fuel", { preset: true }),
    option("big-jet", "fuel"),
    option("spring", "extra"),
    option("sync", "extra"),
    option("label", "extra"),
  ],
  [
    { kind: "needs", option: "opened", anyOf: ["big-jet"], why: "More air wants more fuel." },
    { kind: "excludes", option: "closed", other: "big-jet", why: "It would run rich." },
    { kind: "warns", option: "spring", without: "opened", why: "Little is felt with a closed airbox." },
    {
      kind: "only when",
      option: "sync",
      fact: "cylinders",
      op: ">=",
      value: 2,
      why: "One cylinder has nothing to balance.",
    },
  ],
);

describe("choosing options", () => {
  it("forces and forbids with reasons, live", () => {
    const choice = choose(stage, ["opened"], { cylinders: 1 });
    expect(choice.chosen).toEqual(["opened", "big-jet"]);
    expect(choice.forced).toEqual([
      { option: "big-jet", because: "“OPENED” needs it: More air wants more fuel.", by: "rule" },
    ]);
    expect(choice.forbidden.map((f) => [f.option, f.by])).toEqual([
      ["closed", "group"],
      ["snorkel", "group"],
      ["same-jet", "group"],
      ["sync", "model"],
    ]);
    expect(choice.valid).toBe(true);
  });

  it("says what is still to be chosen", () => {
    const choice = choose(stage, ["closed"], { cylinders: 2 });
    expect(choice.forced.map((f) => f.option)).toEqual(["same-jet"]);
    const none = choose(stage, [], { cylinders: 2 });
    expect(none.missing.map((m) => m.group)).toEqual(["air", "fuel"]);
    expect(none.valid).toBe(false);
  });

  it("warns, and warns when the model card does not say", () => {
    const choice = choose(stage, ["snorkel", "same-jet", "spring", "sync"], {});
    expect(choice.warnings.map((w) => w.option)).toEqual(["spring", "sync"]);
    expect(choice.valid).toBe(true);
  });

  it("names what clashes among the ticked", () => {
    const choice = choose(stage, ["closed", "big-jet"], { cylinders: 2 });
    expect(choice.valid).toBe(false);
    expect(choice.clash?.options).toEqual(["closed", "big-jet"]);
    expect(choose(stage, ["sync"], { cylinders: 1 }).clash?.because).toContain("the model card says 1");
  });

  it("starts a quote with the presets that fit, and refuses unknown options", () => {
    expect(presetChoice(stage, { cylinders: 1 })).toEqual(["closed", "same-jet"]);
    expect(() => choose(stage, ["turbo"], {})).toThrow(Refusal);
  });
});

const keys = ["a", "b", "c", "d", "e", "f"];
const randomRecipe = fc
  .record({
    groups: fc.array(
      fc.constantFrom("exactly one", "at most one", "any") as fc.Arbitrary<OptionGroup["choose"]>,
      { minLength: 3, maxLength: 3 },
    ),
    homes: fc.array(fc.nat(2), { minLength: 6, maxLength: 6 }),
    rules: fc.array(
      fc.oneof(
        fc.record({
          kind: fc.constant("needs" as const),
          option: fc.constantFrom(...keys),
          anyOf: fc.uniqueArray(fc.constantFrom(...keys), { minLength: 1, maxLength: 3 }),
          why: fc.constant("w"),
        }),
        fc.record({
          kind: fc.constant("excludes" as const),
          option: fc.constantFrom(...keys),
          other: fc.constantFrom(...keys),
          why: fc.constant("w"),
        }),
        fc.record({
          kind: fc.constant("only when" as const),
          option: fc.constantFrom(...keys),
          fact: fc.constant("n"),
          op: fc.constantFrom("<" as const, ">=" as const, "=" as const),
          value: fc.nat(3),
          why: fc.constant("w"),
        }),
      ),
      { maxLength: 7 },
    ),
  })
  .map(({ groups, homes, rules }) =>
    recipe(
      groups.map((g, i) => group(`g${i}`, g)),
      keys.map((key, i) => option(key, `g${homes[i]}`)),
      rules,
    ),
  );

/** Every full choice that keeps all groups and rules, by trying all of them. */
function fullChoices(r: Recipe, facts: Record<string, number> | null): string[][] {
  return Array.from({ length: 2 ** r.options.length }, (_, m) =>
    r.options.filter((_o, i) => m & (1 << i)).map((o) => o.key),
  ).filter(
    (on) =>
      r.groups.every((g) => {
        const count = r.options.filter((o) => o.group === g.key && on.includes(o.key)).length;
        return g.choose === "any" || count === 1 || (g.choose === "at most one" && count === 0);
      }) &&
      r.rules.every((rule) => {
        if (!on.includes(rule.option)) return true;
        if (rule.kind === "needs") return rule.anyOf.some((k) => on.includes(k));
        if (rule.kind === "excludes") return !on.includes(rule.other);
        return rule.kind !== "only when" || facts === null || meets(rule, facts) === true;
      }),
  );
}

describe("ticking one more option", () => {
  it("leads from one fitting set to another, undoing what cannot stay, and says beforehand what that is", () => {
    const before = choose(stage, ["closed", "same-jet", "label"], { cylinders: 1 });
    const opened = before.forbidden.find((one) => one.option === "opened");
    expect(opened?.undoes).toEqual(["closed", "same-jet"]);
    const after = tick(stage, ["closed", "same-jet", "label"], "opened", { cylinders: 1 });
    expect(after).toEqual(["label", "opened"]);
    expect(choose(stage, after, { cylinders: 1 })).toMatchObject({
      valid: true,
      chosen: ["opened", "big-jet", "label"],
    });
  });

  it("refuses what this bike can never have, which names nothing to undo", () => {
    expect(() => tick(stage, [], "sync", { cylinders: 1 })).toThrow(/cannot be chosen for this bike/);
    const sync = choose(stage, [], { cylinders: 1 }).forbidden.find((one) => one.option === "sync");
    expect(sync && "undoes" in sync).toBe(false);
    expect(() => tick(stage, [], "turbo", {})).toThrow(Refusal);
  });
});

describe("choosing, against trying every full choice", () => {
  it("forbids exactly what no full choice has and forces exactly what all have", () => {
    fc.assert(
      fc.property(randomRecipe, fc.subarray(keys, { maxLength: 2 }), fc.nat(4), (r, ticked, n) => {
        const all = fullChoices(r, { n }).filter((on) => ticked.every((k) => on.includes(k)));
        const choice = choose(r, ticked, { n });
        expect(choice.clash === null).toBe(all.length > 0);
        if (all.length === 0) return;
        const off = keys.filter((k) => all.every((on) => !on.includes(k)));
        const on = keys.filter((k) => all.every((full) => full.includes(k)));
        expect(choice.forbidden.map((f) => f.option)).toEqual(off);
        expect(choice.chosen).toEqual(on);
        if (choice.valid) expect(all).toContainEqual(choice.chosen);
        for (const f of [...choice.forced, ...choice.forbidden]) expect(f.because.length).toBeGreaterThan(5);
      }),
      { numRuns: 400 },
    );
  });

  it("a tick always leaves a set that can be completed, and undoes nothing that could have stayed", () => {
    fc.assert(
      fc.property(
        randomRecipe,
        fc.array(fc.constantFrom(...keys), { minLength: 1, maxLength: 8 }),
        fc.nat(4),
        (r, wishes, n) => {
          const all = fullChoices(r, { n });
          const fits = (on: readonly string[]) => all.some((full) => on.every((k) => full.includes(k)));
          let ticks: string[] = [];
          for (const wish of wishes.filter((key) => fits([key]))) {
            const next = tick(r, ticks, wish, { n });
            expect(next.at(-1)).toBe(wish);
            expect(fits(next)).toBe(true);
            for (const gone of ticks.filter((key) => !next.includes(key)))
              expect(fits([...next, gone])).toBe(false);
            ticks = next;
          }
        },
      ),
      { numRuns: 200 },
    );
  });

  it("calls an option dead in authoring exactly when no bike and no choice can have it", () => {
    fc.assert(
      fc.property(randomRecipe, (r) => {
        const bikes = [0, 1, 2, 3, 4, 0.5, 1.5, 2.5, -1].flatMap((n) => fullChoices(r, { n }));
        const dead = keys.filter((k) => !bikes.some((on) => on.includes(k)));
        const clashes = checkRecipe(r).filter((p) => p.kind === "clash");
        if (bikes.length === 0) expect(clashes[0]?.message).toContain("Nothing can be chosen");
        else expect(clashes.map((p) => p.names[0])).toEqual(dead);
      }),
      { numRuns: 200 },
    );
  });
});

describe("what a choice needs", () => {
  const shared = operation("strip", { parts: [{ kind: "part", code: "SEAL", quantityMilli: 1000 }] });
  const work = recipe(
    [group("g", "any")],
    [
      option("x", "g", {
        operations: ["strip"],
        roadUse: true,
        cautions: ["c1"],
        parts: [
          { kind: "part", code: "SEAL", quantityMilli: 500 },
          { kind: "jet", setting: "mainJet", family: "hex", quantityMilli: 1000 },
        ],
        changes: [
          { setting: "mixtureScrewTurns", change: "add", value: 0.25 },
          { setting: "mainJet", change: "computed" },
        ],
      }),
      option("y", "g", {
        operations: ["strip", "fit"],
        cautions: ["c1", "c2"],
        parts: [{ kind: "jet", setting: "mainJet", family: "hex", quantityMilli: 1000 }],
        changes: [
          { setting: "mixtureScrewTurns", change: "set", value: 2 },
          { setting: "mainJet", change: "computed" },
        ],
      }),
      option("z", "g", { changes: [{ setting: "mixtureScrewTurns", change: "set", value: 3 }] }),
    ],
    [],
    {
      operations: [operation("fit", { after: ["strip"], makes: ["mainJet", "mixtureScrewTurns"] }), shared],
    },
  );

  it("takes a shared operation once and adds parts and changes up", () => {
    const found = needs(work, ["x", "y"]);
    expect(found.operations.map((o) => o.key)).toEqual(["fit", "strip"]);
    expect(found.parts).toEqual([
      { kind: "part", code: "SEAL", quantityMilli: 1500 },
      { kind: "jet", setting: "mainJet", family: "hex", quantityMilli: 2000 },
    ]);
    expect(found.changes).toEqual([
      { setting: "mixtureScrewTurns", change: "set", value: 2.25 },
      { setting: "mainJet", change: "computed" },
    ]);
    expect(found.cautions).toEqual(["c1", "c2"]);
    expect(found.roadUse).toBe(true);
    expect(needs(work, ["y"]).roadUse).toBe(false);
  });

  it("refuses two options that put one setting to different values, and authoring finds them", () => {
    expect(() => needs(work, ["y", "z"])).toThrow(/different values/);
    expect(checkRecipe(work)).toEqual([expect.objectContaining({ kind: "setting", names: ["y", "z"] })]);
  });
});

describe("checking a recipe", () => {
  const kinds = (r: Recipe) => checkRecipe(r).map((p) => p.kind);

  it("finds nothing wrong with a sound one", () => {
    expect(checkRecipe(stage)).toEqual([]);
  });

  it("names the smallest clash of an option that can never be chosen", () => {
    const [problem, ...rest] = checkRecipe({
      ...stage,
      rules: [
        ...stage.rules,
        { kind: "needs", option: "label", anyOf: ["closed"], why: "w" },
        { kind: "excludes", option: "closed", other: "label", why: "w" },
      ],
    });
    expect(rest).toEqual([]);
    expect(problem?.kind).toBe("clash");
    expect(problem?.message).toBe(
      "“LABEL” can never be chosen: “LABEL” needs “CLOSED”; “CLOSED” excludes “LABEL”.",
    );
    expect(problem?.names).toEqual(["label", "closed"]);
  });

  it("finds unknown names, doubles, missing minutes and access, circles and false settings", () => {
    const bad = (more: Partial<Recipe>) => kinds({ ...stage, ...more });
    expect(bad({ rules: [{ kind: "excludes", option: "closed", other: "nitro", why: "w" }] })).toEqual([
      "name",
    ]);
    expect(bad({ options: [...stage.options, option("closed", "extra")] })).toContain("duplicate");
    expect(bad({ operations: [operation("a", { minutes: 0 })] })).toEqual(["operation"]);
    expect(bad({ operations: [operation("a", { accesses: [] })] })).toEqual(["operation"]);
    expect(bad({ operations: [operation("a", { after: ["b"] }), operation("b", { after: ["a"] })] })).toEqual(
      ["cycle"],
    );
    expect(bad({ accesses: [access("p", { needs: ["q"] }), access("q", { needs: ["p"] })] })).toEqual([
      "cycle",
    ]);
    expect(
      bad({
        options: [
          ...stage.options,
          option("s", "extra", { changes: [{ setting: "choke", change: "computed" }] }),
        ],
      }),
    ).toEqual(["setting"]);
    expect(
      bad({
        options: [
          ...stage.options,
          option("s", "extra", { changes: [{ setting: "mainJet", change: "set", value: 900 }] }),
        ],
      }),
    ).toEqual(["setting"]);
    const sides = [access("left", { excludes: ["right"] }), access("right")];
    expect(bad({ accesses: sides, operations: [operation("a", { accesses: ["left", "right"] })] })).toEqual([
      "operation",
    ]);
  });

  it("gives the shortest circle", () => {
    const links: Record<string, string[]> = { a: ["b"], b: ["c"], c: ["d", "b"], d: ["a"] };
    expect(shortestCycle(Object.keys(links), (k) => links[k] ?? [])).toEqual(["b", "c"]);
    expect(shortestCycle(["a", "b"], (k) => (k === "a" ? ["b"] : []))).toBeNull();
  });

  it("finds a circle exactly where there is one, and none shorter, against following every path", () => {
    const names = ["a", "b", "c", "d", "e"];
    const graph = fc.array(fc.subarray(names, { maxLength: 2 }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(graph, (links) => {
        const next = (name: string) => links[names.indexOf(name)] ?? [];
        const lengths = (path: readonly string[]): number[] =>
          next(path.at(-1) ?? "").flatMap((to) =>
            to === path[0] ? [path.length] : path.includes(to) ? [] : lengths([...path, to]),
          );
        const all = names.flatMap((name) => lengths([name]));
        const found = shortestCycle(names, next);
        expect(found?.length ?? null).toBe(all.length > 0 ? Math.min(...all) : null);
        for (const [at, name] of (found ?? []).entries())
          expect(next(name)).toContain(found?.[(at + 1) % (found?.length ?? 1)]);
      }),
      { numRuns: 1000 },
    );
  });

  it("knows when no bike can meet two conditions", () => {
    const when = (op: "<" | ">" | "=" | "!=" | "<=" | ">=", value: number | string) => ({
      kind: "only when" as const,
      option: "o",
      fact: "f",
      op,
      value,
      why: "",
    });
    expect(couldAllHold([when(">", 2), when("<", 2)])).toBe(false);
    expect(couldAllHold([when(">=", 2), when("<=", 2)])).toBe(true);
    expect(couldAllHold([when(">=", 2), when("<=", 2), when("!=", 2)])).toBe(false);
    expect(couldAllHold([when(">", 2), when("<", 3)])).toBe(true);
    expect(couldAllHold([when("=", "CV"), when("=", "slide")])).toBe(false);
    expect(couldAllHold([when("=", "CV"), when("!=", "slide")])).toBe(true);
  });
});

describe("a recipe from a file", () => {
  it("is read when its shape is right and refused with the place when it is not", () => {
    expect(RecipeSchema.parse(JSON.parse(JSON.stringify(stage)))).toEqual(stage);
    const wrong = RecipeSchema.safeParse({ ...stage, options: [{ ...stage.options[0], preset: "yes" }] });
    expect(wrong.success).toBe(false);
    expect(wrong.error?.issues[0]?.path).toEqual(["options", 0, "preset"]);
    expect(RecipeSchema.safeParse({ ...stage, extra: 1 }).success).toBe(false);
  });
});
