import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { choose, presetChoice } from "@/lib/domain/packages/choose";
import { needs } from "@/lib/domain/packages/needs";
import type { Access, Operation, Recipe } from "@/lib/domain/packages/recipe";
import type { Work, WrittenWork } from "@/lib/domain/packages/work";
import { planWork } from "@/lib/domain/plan/planWork";
import { composeWorks, workOf } from "@/lib/domain/quoting/composeWorks";
import { RecipeOfWorksSchema } from "@/lib/schemas/recipe";
import { BREATHING } from "../support/breathing";
import { ROAD } from "../support/roadPackage";
import { bruteMinutes } from "./bruteMinutes";

const NOTHING: Omit<WrittenWork, "name"> = {
  plain: "",
  steps: [],
  parts: [],
  outside: [],
  accesses: [],
  holdPoints: [],
  changes: [],
  cautions: [],
};

const pack = (key: string, recipe: Recipe): Work => ({
  kind: "package",
  key,
  name: `Package ${key}`,
  recipe,
});
const written = (key: string, work: Partial<WrittenWork> & { name: string }): Work => ({
  kind: "written",
  key,
  ...NOTHING,
  ...work,
});
const CHAIN = (key: string) =>
  written(key, {
    name: "Chain and sprockets renewed",
    plain: "A new chain with both sprockets.",
    steps: [{ name: "", minutes: 48, grade: "workshop" }],
    parts: [{ kind: "part", code: "CH-520", quantityMilli: 1000 }],
    outside: [{ name: "Sprocket turned down", priceMinor: 2_000, costMinor: 1_500 }],
    cautions: ["Keep fingers off a moving chain."],
  });

describe("the works of a quote as one recipe", () => {
  it("leave a single package as it is, so that its quote prices, prints and hashes as ever", () => {
    const composed = composeWorks([pack("", ROAD)]);
    expect(composed.recipe).toBe(ROAD);
    expect(composed.works).toEqual([]);
  });

  it("keep each work's keys apart, whatever two packages call their options", () => {
    const { recipe, works } = composeWorks([pack("", BREATHING), pack("w2", BREATHING), CHAIN("w3")]);
    for (const part of ["groups", "options", "operations", "accesses"] as const) {
      const keys = recipe[part].map((one) => one.key);
      expect(new Set(keys).size).toBe(keys.length);
    }
    expect(recipe.options.map((o) => workOf(works, o.key))).toEqual([
      ...BREATHING.options.map(() => ""),
      ...BREATHING.options.map(() => "w2"),
      "w3",
    ]);
    expect(RecipeOfWorksSchema.parse(JSON.parse(JSON.stringify(recipe)))).toEqual(recipe);
  });

  it("keep each package's rules to itself: what follows in one follows as it did alone", () => {
    const { recipe } = composeWorks([pack("", BREATHING), pack("w2", BREATHING), CHAIN("w3")]);
    const facts = { carburettorType: "constant vacuum" };
    const ticks = fc.subarray(BREATHING.options.map((o) => o.key));
    fc.assert(
      fc.property(ticks, ticks, (one, two) => {
        const alone = [one, two].map((keys) => choose(BREATHING, keys, facts));
        const both = choose(recipe, [...one, ...two.map((key) => `w2:${key}`)], facts);
        expect(both.valid).toBe(alone.every((choice) => choice.valid));
        if (!both.valid) return;
        expect(both.chosen).toEqual([
          ...(alone[0]?.chosen ?? []),
          ...(alone[1]?.chosen ?? []).map((key) => `w2:${key}`),
          "w3:all",
        ]);
      }),
      { numRuns: 60 },
    );
  });

  it("take a written work's minutes, parts and cautions as they were written, and choose it without a tick", () => {
    const { recipe, outside } = composeWorks([CHAIN("")]);
    const { chosen, valid } = choose(recipe, [], {});
    expect([chosen, valid]).toEqual([["all"], true]);
    const need = needs(recipe, chosen);
    expect(need.operations.map((o) => [o.name, o.minutes, o.grade])).toEqual([
      ["Chain and sprockets renewed", 48, "workshop"],
    ]);
    expect(need.parts).toEqual([{ kind: "part", code: "CH-520", quantityMilli: 1000, operation: "step-1" }]);
    expect(need.cautions).toEqual(["Keep fingers off a moving chain."]);
    expect(outside.map((line) => [line.name, line.priceMinor, line.costMinor])).toEqual([
      ["Sprocket turned down", 2_000, 1_500],
    ]);
    expect(planWork(need.operations, recipe.accesses).minutes).toBe(48);
  });

  it("open what two works call by one name once, at the package's minutes, however it is written", () => {
    const own = written("", {
      name: "Float needle looked at",
      steps: [{ name: "", minutes: 7, grade: "workshop" }],
      accesses: [{ name: "bowl  OFF", openMinutes: 60, closeMinutes: 60 }],
    });
    const { recipe } = composeWorks([own, pack("w2", BREATHING)]);
    const chosen = choose(recipe, ["w2:main"], { carburettorType: "constant vacuum" }).chosen;
    const plan = planWork(needs(recipe, chosen).operations, recipe.accesses);
    // Bowl off needs the tilt and the seat: 3+4, 5+6, 9+12 minutes once, with 10 for the jet and 7 for the look.
    expect(plan.minutes).toBe(56);
    expect(plan.steps.filter((step) => step.kind === "open").map((step) => step.access)).toEqual([
      "Seat and tank off",
      "Carburettor turned left",
      "Bowl off",
    ]);
  });

  it("name two works that put one setting to different values", () => {
    const set = (key: string, value: number) =>
      written(key, {
        name: `Idle at ${value}`,
        steps: [{ name: "", minutes: 5, grade: "workshop" }],
        changes: [{ setting: "idleSpeedRpm", change: "set", value }],
      });
    const { recipe } = composeWorks([set("", 1300), set("w2", 1500)]);
    expect(() => needs(recipe, ["all", "w2:all"])).toThrow(
      /“Idle at 1300” and “Idle at 1500” put idleSpeedRpm/,
    );
  });

  it("do an operation after what another work says comes before one of its name, unless that is a circle", () => {
    const [first, second] = ["Bleed the brake", "Road wheel in"].map((name, at) => ({
      name,
      key: `o${at}`,
    }));
    const one = (after: boolean): Recipe =>
      recipeWith([first, second], after ? "o1" : "o0", after ? "o0" : "o1");
    const together = composeWorks([pack("", one(false)), pack("w2", one(false))]).recipe;
    expect(together.operations.find((o) => o.key === "w2:o1")?.after).toEqual(["w2:o0", "o0"]);
    const against = composeWorks([pack("", one(false)), pack("w2", one(true))]).recipe;
    expect(against.operations.map((o) => o.after)).toEqual([[], ["o0"], ["w2:o1"], []]);
  });
});

function recipeWith(
  named: readonly ({ name: string; key: string } | undefined)[],
  before: string,
  after: string,
): Recipe {
  const operations = named.flatMap((one): Operation[] =>
    one ? [operation(one.key, one.name, 5, [], one.key === after ? [before] : [])] : [],
  );
  return {
    ...EMPTY,
    groups: [{ key: "g", name: "All", choose: "exactly one" }],
    options: [option("all", operations)],
    operations,
  };
}

const EMPTY: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [],
  options: [],
  operations: [],
  accesses: [],
  rules: [],
};
const operation = (
  key: string,
  name: string,
  minutes: number,
  accesses: string[],
  after: string[] = [],
): Operation => ({
  key,
  name,
  instruction: "",
  minutes,
  grade: "workshop",
  accesses,
  after,
  parts: [],
  holdPoints: [],
  cautions: [],
  tools: [],
  inspects: [],
});
const option = (key: string, operations: readonly Operation[]) => ({
  key,
  group: "g",
  name: key,
  plain: "",
  operations: operations.map((o) => o.key),
  parts: [],
  changes: [],
  cautions: [],
  preset: true,
  roadUse: false,
});

const minutes = fc.integer({ min: 0, max: 20 });
/** What lies in the way on one bike; works know some of it, by name. */
const NAMES = ["Tank off", "Seat off", "Bowl off"];
const access = (name: string, openMinutes: number, closeMinutes: number): Access => ({
  key: `a${NAMES.indexOf(name)}`,
  name,
  openMinutes,
  closeMinutes,
  needs: [],
  excludes: [],
  closingChecks: [],
  cautions: [],
  tools: [],
});

const randomWork = fc.record({
  kind: fc.constantFrom("package" as const, "written" as const),
  operations: fc.array(fc.record({ minutes: fc.integer({ min: 1, max: 20 }), uses: fc.subarray(NAMES) }), {
    minLength: 1,
    maxLength: 2,
  }),
});

describe("the plan over several works", () => {
  it("takes as few minutes as trying every order of all their operations does", () => {
    const times = fc.array(fc.tuple(minutes, minutes), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(fc.array(randomWork, { minLength: 1, maxLength: 3 }), times, (raw, spans) => {
        const accesses = NAMES.map((name, at) => access(name, spans[at]?.[0] ?? 0, spans[at]?.[1] ?? 0));
        const works = raw.map((work, at): Work => {
          const key = at === 0 ? "" : `w${at + 1}`;
          const used = NAMES.filter((name) => work.operations[0]?.uses.includes(name));
          if (work.kind === "written")
            return written(key, {
              name: `Work ${at}`,
              steps: [{ name: "", minutes: work.operations[0]?.minutes ?? 1, grade: "workshop" }],
              accesses: accesses.filter((one) => used.includes(one.name)),
            });
          const operations = work.operations.map((one, n) =>
            operation(
              `o${n}`,
              `Work ${at} operation ${n}`,
              one.minutes,
              one.uses.map((name) => `a${NAMES.indexOf(name)}`),
            ),
          );
          return pack(key, {
            ...EMPTY,
            groups: [{ key: "g", name: "All", choose: "exactly one" }],
            options: [option("all", operations)],
            operations,
            accesses,
          });
        });
        const { recipe } = composeWorks(works);
        const chosen = presetChoice(recipe, {});
        const plan = planWork(needs(recipe, chosen).operations, recipe.accesses);
        const all = raw.flatMap((work, at) =>
          (work.kind === "written" ? work.operations.slice(0, 1) : work.operations).map((one, n) =>
            operation(
              `${at}-${n}`,
              "",
              one.minutes,
              one.uses.map((name) => `a${NAMES.indexOf(name)}`),
            ),
          ),
        );
        expect(plan.minutes).toBe(bruteMinutes(all, accesses, []));
      }),
      { numRuns: 60 },
    );
  });
});
