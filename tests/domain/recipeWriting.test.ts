import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { checkRecipe } from "@/lib/domain/packages/check";
import { namedBy, renamed } from "@/lib/domain/packages/named";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { lacks, lackText } from "@/lib/domain/packages/supplies";
import { SETTINGS } from "@/lib/domain/tuning/settings";
import { WEAR_KEYS } from "@/lib/domain/tuning/wear";
import { AddRevisionSchema, ImportPackageSchema } from "@/lib/schemas/packages";
import { RecipeSchema } from "@/lib/schemas/recipe";
import { GroupFormSchema, OperationFormSchema, OptionFormSchema } from "@/lib/schemas/recipeForms";
import { saidWhileWriting } from "@/lib/schemas/whileWriting";
import { BREATHING } from "../support/breathing";

const writing = (part: "groups" | "options" | "operations" | "accesses" | "rules", at = -1) => ({
  recipe: BREATHING,
  part,
  at,
});

describe("what the checks say while an item is written", () => {
  it("is nothing of fields that are still empty, and nothing of a sound item", () => {
    expect(saidWhileWriting(writing("groups"), { name: "", choose: "any" })).toEqual([]);
    const operation = { name: "", minutes: "", grade: "workshop", accesses: ["bowl"] };
    expect(saidWhileWriting(writing("operations"), operation)).toEqual([]);
    expect(
      saidWhileWriting(writing("operations"), { ...operation, name: "Weigh the float", minutes: "4" }),
    ).toEqual([]);
  });

  it("names the smallest clash that a rule would make, before its reason is typed", () => {
    const rule = { kind: "excludes", option: "opening", other: "main", why: "" };
    expect(saidWhileWriting(writing("rules"), rule)).toEqual([
      "“Airbox opening, 48 mm” can never be chosen: “Airbox opening, 48 mm” needs “Main jet to suit”; “Airbox opening, 48 mm” excludes “Main jet to suit”.",
    ]);
  });

  it("says what a rule asks of a card that no card has, and the words it can be", () => {
    const rule = { kind: "only when", option: "main", why: "w", op: "=" };
    expect(saidWhileWriting(writing("rules"), { ...rule, fact: "jetConvention", value: "hex" })).toEqual([
      expect.stringMatching(/compares .* with “hex”; it can be “bore” or “flow”/),
    ]);
    expect(saidWhileWriting(writing("rules"), { ...rule, fact: "boreMm", value: "wide" })).toEqual([
      expect.stringContaining("with a word"),
    ]);
    expect(saidWhileWriting(writing("rules"), { ...rule, fact: "paint", value: "red" })).toEqual([
      "The rule “w” asks for “paint”, which no model card has.",
    ]);
  });

  it("says faults of rows with their place, and a circle that the item would close", () => {
    const at = BREATHING.operations.findIndex((o) => o.key === "fit-main");
    const form = {
      key: "fit-main",
      name: "Fit the main jet",
      minutes: "10",
      grade: "workshop",
      accesses: ["bowl"],
    };
    const holdPoints = { "0": { kind: "reading", name: "Float height", low: "13", high: "12" } };
    expect(saidWhileWriting(writing("operations", at), { ...form, holdPoints })).toEqual([
      "Hold point 1: The low limit is above the high one.",
    ]);
    expect(saidWhileWriting(writing("operations", at), { ...form, after: ["needle"] })).toEqual([
      "Operations that come after one another run in a circle: “Fit the main jet” → “Reseat the needle” → “Fit the main jet”.",
    ]);
  });

  it("leaves out faults of other items that were there before", () => {
    const recipe = {
      ...BREATHING,
      operations: BREATHING.operations.map((o) => (o.key === "check" ? { ...o, accesses: [] } : o)),
    };
    expect(saidWhileWriting({ recipe, part: "groups", at: -1 }, { name: "More", choose: "any" })).toEqual([]);
    const at = recipe.operations.findIndex((o) => o.key === "check");
    const form = { key: "check", name: "Spark and valve check", minutes: "30", grade: "workshop" };
    expect(saidWhileWriting({ recipe, part: "operations", at }, form)).toHaveLength(1);
  });
});

describe("a form's rows", () => {
  const base = { packageId: "1", name: "X", group: "g", minutes: "5", grade: "workshop" };
  const said = (parsed: { error?: { issues: { path: PropertyKey[]; message: string }[] } | undefined }) =>
    parsed.error?.issues.map((issue) => issue.path.join("."));

  it("never drop what was typed beside an empty name", () => {
    const hold = { kind: "reading", name: "", unit: "mm", low: "12", high: "13" };
    expect(said(OperationFormSchema.safeParse({ ...base, holdPoints: { "0": hold } }))).toEqual([
      "holdPoints.0.name",
    ]);
    const change = { setting: "", change: "set", value: "3" };
    expect(said(OptionFormSchema.safeParse({ ...base, changes: { "0": change } }))).toEqual([
      "changes.0.setting",
    ]);
    const signed = { kind: "signature", name: "Jet number read", low: "12" };
    expect(said(OperationFormSchema.safeParse({ ...base, holdPoints: { "0": signed } }))).toEqual([
      "holdPoints.0.low",
    ]);
    const computed = { setting: "mainJet", change: "computed", value: "140" };
    expect(said(OptionFormSchema.safeParse({ ...base, changes: { "0": computed } }))).toEqual([
      "changes.0.value",
    ]);
    const many = Object.fromEntries(
      Array.from({ length: 61 }, (_, n) => [String(n), { kind: "part", what: `P${n}`, quantity: "1" }]),
    );
    expect(said(OptionFormSchema.safeParse({ ...base, parts: many }))).toEqual(["parts.60.what"]);
  });

  it("take a key with letters, figures and hyphens only", () => {
    const group = { packageId: "1", key: "a", name: "A", choose: "any" };
    expect(GroupFormSchema.parse({ ...group, as: "ny-nøkkel-2" }).as).toBe("ny-nøkkel-2");
    expect(said(GroupFormSchema.safeParse({ ...group, as: "two words" }))).toEqual(["as"]);
  });
});

const PARTS = ["groups", "options", "operations", "accesses"] as const;

describe("an item that others name", () => {
  it("is told by everything that names it, and by nothing else", () => {
    expect(namedBy(BREATHING, "groups", "care")).toEqual([
      "option “Breather filter renewed”",
      "option “Spark and valve check”",
    ]);
    expect(namedBy(BREATHING, "accesses", "tilt")).toEqual([
      "operation “Reseat the needle”",
      "access “Bowl off”",
    ]);
    expect(namedBy(BREATHING, "operations", "fit-main")).toEqual([
      "option “Main jet to suit”",
      "operation “Reseat the needle”",
    ]);
    expect(namedBy(BREATHING, "options", "needle")).toEqual(["the rule “It rides in the slide.”"]);
    expect(namedBy(BREATHING, "options", "check")).toEqual([]);
  });

  it("keeps every tie when its key changes, and comes back by the same way", () => {
    for (const part of PARTS)
      for (const { key } of BREATHING[part]) {
        const other = renamed(BREATHING, part, key, "other-key");
        expect(checkRecipe(other)).toEqual([]);
        expect(namedBy(other, part, "other-key")).toEqual(namedBy(BREATHING, part, key));
        expect(renamed(other, part, "other-key", key)).toEqual(BREATHING);
      }
  });
});

describe("what a shop lacks for a recipe", () => {
  it("is each part, drawer and grade once, with who names it and what to do", () => {
    const found = lacks(BREATHING, { codes: [], families: [], grades: [] });
    expect(found.map((lack) => [lack.what, lack.name, lack.where.length])).toEqual([
      ["grade", "workshop", 6],
      ["part", "BF-20", 1],
      ["family", "Round main", 1],
    ]);
    expect(lackText(found[1] ?? { what: "part", name: "", where: [] })).toBe(
      "No part “BF-20” is in stock's list (operation “Renew the breather filter”): add it there, or name another.",
    );
    expect(lacks(BREATHING, { codes: ["BF-20"], families: ["Round main"], grades: ["workshop"] })).toEqual(
      [],
    );
  });
});

/** Random recipes of the right shape: names and texts of any kind, keys that lead somewhere or nowhere. */
const key = fc.stringMatching(/^[a-z][a-z0-9-]{0,12}$/);
// Names stand on one line: a control character or a line's end in them is refused, which another test shows.
const words = fc
  .string({ minLength: 1, maxLength: 20, unit: "grapheme" })
  .map((s) => s.replace(/[\p{Cc}\p{Zl}\p{Zp}]/gu, " ").trim() || "x");
const texts = fc.array(words, { maxLength: 3 });
const keys = fc.array(key, { maxLength: 3 });
const minutes = fc.integer({ min: 0, max: 6000 });
const number = fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((n) => n + 0);
const quantityMilli = fc.integer({ min: 1, max: 1_000_000 });
const parts = fc.array(
  fc.oneof(
    fc.record({ kind: fc.constant("part" as const), code: words, quantityMilli }),
    fc.record({
      kind: fc.constant("jet" as const),
      setting: fc.constantFrom("mainJet" as const, "pilotJet" as const),
      family: words,
      quantityMilli,
    }),
  ),
  { maxLength: 3 },
);
const change = fc.record(
  {
    setting: fc.constantFrom(...SETTINGS.map((s) => s.key)),
    change: fc.constantFrom("computed" as const, "set" as const, "add" as const),
    value: number,
  },
  { requiredKeys: ["setting", "change"] },
);
const hold = fc
  .record(
    {
      kind: fc.constantFrom("reading" as const, "signature" as const),
      name: words,
      unit: words,
      low: number,
    },
    { requiredKeys: ["kind", "name"] },
  )
  .map((point) => (point.low === undefined ? point : { ...point, high: point.low + 1, step: 0.5 }));
const rule = fc.oneof(
  fc.record({ kind: fc.constant("needs" as const), option: key, anyOf: keys, why: words }),
  fc.record({ kind: fc.constant("excludes" as const), option: key, other: key, why: words }),
  fc.record(
    { kind: fc.constant("warns" as const), option: key, why: words, with: key, without: key },
    { requiredKeys: ["kind", "option", "why"] },
  ),
  fc.record({
    kind: fc.constant("only when" as const),
    option: key,
    fact: key,
    op: fc.constantFrom(
      "=" as const,
      "!=" as const,
      "<" as const,
      "<=" as const,
      ">" as const,
      ">=" as const,
    ),
    value: fc.oneof(words, number),
    why: words,
  }),
);
const recipes: fc.Arbitrary<Recipe> = fc.record({
  format: fc.constant("throttlewright-recipe" as const),
  version: fc.constant(2 as const),
  groups: fc.array(
    fc.record({
      key,
      name: words,
      choose: fc.constantFrom("exactly one" as const, "at most one" as const, "any" as const),
    }),
    { maxLength: 3 },
  ),
  options: fc.array(
    fc.record(
      {
        key,
        group: key,
        name: words,
        plain: words,
        operations: keys,
        parts,
        changes: fc.array(change, { maxLength: 2 }),
        cautions: texts,
        preset: fc.boolean(),
        roadUse: fc.boolean(),
        fixedPriceMinor: fc.nat(1_000_000),
      },
      {
        noNullPrototype: true,
        requiredKeys: [
          "key",
          "group",
          "name",
          "plain",
          "operations",
          "parts",
          "changes",
          "cautions",
          "preset",
          "roadUse",
        ],
      },
    ),
    { maxLength: 3 },
  ),
  operations: fc.array(
    fc.record({
      key,
      name: words,
      instruction: words,
      minutes,
      grade: key,
      accesses: keys,
      after: keys,
      parts,
      holdPoints: fc.array(hold, { maxLength: 2 }),
      cautions: texts,
      tools: texts,
      inspects: fc.subarray([...WEAR_KEYS]),
    }),
    { maxLength: 3 },
  ),
  accesses: fc.array(
    fc.record({
      key,
      name: words,
      openMinutes: minutes,
      closeMinutes: minutes,
      needs: keys,
      excludes: keys,
      closingChecks: texts,
      cautions: texts,
      tools: texts,
    }),
    { maxLength: 3 },
  ),
  rules: fc.array(rule, { maxLength: 3 }),
});

describe("a package's file", () => {
  const around = (recipe: unknown) => ({
    format: "throttlewright-package",
    version: 1,
    code: "A",
    name: "A",
    summary: "",
    revision: 1,
    recipe,
  });

  it("written out and read in gives the equal recipe, whatever is in it; as text too", () => {
    fc.assert(
      fc.property(recipes, (recipe) => {
        const text = JSON.stringify(around(recipe), null, 2);
        expect(ImportPackageSchema.parse({ file: text }).file.recipe).toEqual(recipe);
        const alone = AddRevisionSchema.parse({ packageId: "1", recipe: JSON.stringify(recipe) });
        expect(alone.recipe).toEqual(recipe);
        expect(RecipeSchema.parse(JSON.parse(JSON.stringify(recipe)))).toEqual(recipe);
      }),
      { numRuns: 200 },
    );
  });

  it("with two hundred faults tells each at its place, after saying how many", () => {
    const option = { ...BREATHING.options[0], preset: "yes", colour: "red" };
    const options = Array.from({ length: 60 }, (_, n) => ({ ...option, key: `o${n}`, name: `Option ${n}` }));
    const operations = Array.from({ length: 80 }, (_, n) => ({
      ...BREATHING.operations[0],
      key: `p${n}`,
      minutes: -1,
    }));
    const recipe = { ...BREATHING, options, operations };
    const issues =
      ImportPackageSchema.safeParse({ file: JSON.stringify(around(recipe)) }).error?.issues ?? [];
    expect(issues[0]?.message).toBe("200 things in it cannot be read. Nothing was saved.");
    expect(issues).toHaveLength(201);
    expect(new Set(issues.map((issue) => issue.path.join("."))).size).toBe(201);
    const told = issues.map((issue) => issue.message);
    expect(told).toContain(
      "recipe, options, entry 60 “Option 59”, preset: it is “yes”. It has to be true or false.",
    );
    expect(told).toContain("recipe, options, entry 1 “Option 0”: “colour” is not known here. Take it out.");
    expect(told.at(-1)).toContain("recipe, operations, entry 80 “Cut the opening”, minutes:");
  });

  it("that is no JSON is told the line and column where it stops being it", () => {
    const said = (file: string) => ImportPackageSchema.safeParse({ file }).error?.issues[0]?.message;
    expect(said('{\n  "a": 1,\n  "b" 2\n}')).toMatch(
      /^This is not JSON from line 3, column 7 on\. Look there/,
    );
    expect(said('{ "a": [1, 2')).toContain("never closed");
    expect(said("[]")).toContain("not a package's file");
    expect(said("null")).toContain("not a package's file");
  });
});
