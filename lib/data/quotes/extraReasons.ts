import type { Recipe } from "@/lib/domain/packages/recipe";
import { wordsIn } from "@/lib/words/words";

/**
 * Why an extra does not go with what is chosen, as its customer reads it: by the rule of the package with the shop's own
 * words, or by the group that takes only one; in general words where the clash is of more than two.
 */
export function extraReason(
  recipe: Pick<Recipe, "options" | "groups" | "rules">,
  chosen: readonly string[],
  key: string,
  locale: string,
): string {
  const say = wordsIn(locale);
  const nameOf = (option: string) => recipe.options.find((o) => o.key === option)?.name ?? "";
  for (const rule of recipe.rules) {
    if (rule.kind === "excludes" && (rule.option === key || rule.other === key)) {
      const other = rule.option === key ? rule.other : rule.option;
      if (chosen.includes(other))
        return `${say("quotePage.notWith", { name: nameOf(other) })} ${rule.why}`.trim();
    }
    if (rule.kind === "needs" && rule.option === key && !rule.anyOf.some((one) => chosen.includes(one))) {
      const names = new Intl.ListFormat(locale, { type: "disjunction" }).format(rule.anyOf.map(nameOf));
      return `${say("quotePage.needs", { names })} ${rule.why}`.trim();
    }
  }
  const own = recipe.options.find((o) => o.key === key);
  const group = recipe.groups.find((g) => g.key === own?.group && g.choose !== "any");
  const taken = recipe.options.find((o) => o.key !== key && o.group === group?.key && chosen.includes(o.key));
  return taken
    ? say("quotePage.onlyOne", { group: group?.name ?? "", name: taken.name })
    : say("quotePage.notBeside");
}
