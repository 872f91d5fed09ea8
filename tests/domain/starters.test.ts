import { describe, expect, it } from "vitest";
import { checkRecipe } from "@/lib/domain/packages/check";
import { presetChoice } from "@/lib/domain/packages/choose";
import { needs } from "@/lib/domain/packages/needs";
import { recipeAt, STARTERS } from "@/lib/domain/packages/starters/starters";
import { planWork } from "@/lib/domain/plan/planWork";
import { AddRevisionSchema } from "@/lib/schemas/packages";

describe("a starter package", () => {
  it.each(STARTERS)("$name has nothing that keeps it from being published", ({ recipe }) => {
    expect(checkRecipe(recipe)).toEqual([]);
  });

  it.each(STARTERS)("$name can be written out and read in, and needs nothing from stock", ({ recipe }) => {
    const read = AddRevisionSchema.parse({ packageId: "1", recipe: JSON.stringify(recipe) });
    expect(read.recipe).toEqual(recipe);
    expect(recipe.options.flatMap((option) => option.parts)).toEqual([]);
    expect(recipe.operations.flatMap((one) => one.parts)).toEqual([]);
  });

  it.each(STARTERS)(
    "$name warns of vapour before fuel is opened and of fumes before the engine runs",
    ({ recipe }) => {
      const said = (key: string) => recipe.accesses.find((one) => one.key === key)?.cautions.join(" ") ?? "";
      expect(said("tank")).toContain("no flame, no sparks");
      expect(said("running")).toContain("extraction");
      // Nobody runs an engine with its tank off.
      expect(recipe.accesses.find((one) => one.key === "running")?.excludes).toContain("tank");
    },
  );

  it.each(STARTERS)("$name has a plan with its preset options, priced at the shop's own grade", (starter) => {
    const recipe = recipeAt(starter, "bench-2");
    expect(new Set(recipe.operations.map((one) => one.grade))).toEqual(new Set(["bench-2"]));
    const chosen = presetChoice(recipe, { carburettors: starter.key === "twin-balance" ? 2 : 1 });
    const plan = planWork(needs(recipe, chosen).operations, recipe.accesses);
    expect(plan.minutes).toBeGreaterThan(20);
    expect(plan.gapMinutes).toBe(0);
  });
});
