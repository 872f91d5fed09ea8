import type { Recipe } from "./recipe";

/** What a customer may read of a recipe, each text once, in its order: names, plain words and cautions of options, groups, reasons of rules. */
export function customerTexts(recipe: Pick<Recipe, "groups" | "options" | "rules">): string[] {
  const texts = [
    ...recipe.options.flatMap(({ name, plain, cautions }) => [name, plain, ...cautions]),
    ...recipe.groups.map(({ name }) => name),
    ...recipe.rules.map(({ why }) => why),
  ];
  return [...new Set(texts.filter((text) => text.trim() !== ""))];
}

/** The recipe with those texts said otherwise. What the floor reads, operations and accesses, stays as it is. */
export function withTexts(recipe: Recipe, say: (text: string) => string): Recipe {
  return {
    ...recipe,
    groups: recipe.groups.map((group) => ({ ...group, name: say(group.name) })),
    options: recipe.options.map((option) => ({
      ...option,
      name: say(option.name),
      plain: say(option.plain),
      cautions: option.cautions.map(say),
    })),
    rules: recipe.rules.map((rule) => ({ ...rule, why: say(rule.why) })),
  };
}
