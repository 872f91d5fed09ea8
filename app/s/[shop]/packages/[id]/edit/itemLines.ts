import { keyOf } from "@/lib/data/packages/items";
import type { Problem } from "@/lib/domain/packages/check";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { ruleText } from "../recipeWords";
import { concerns } from "./concerns";
import type { ItemLine } from "./ItemList";

/** The lines of one list of a draft; options stand by their groups, as on a quote. */
export function linesOf(part: RecipePart, recipe: Recipe, problems: readonly Problem[]): ItemLine[] {
  const line = (item: object, name: string, sub: string): ItemLine => ({
    key: keyOf(item),
    name,
    sub,
    troubled: problems.some((problem) => concerns(problem, part, item)),
  });
  if (part === "groups") return recipe.groups.map((g) => line(g, g.name, g.choose));
  if (part === "operations")
    return recipe.operations.map((o) => line(o, o.name, `${o.minutes} min · ${o.grade}`));
  if (part === "accesses")
    return recipe.accesses.map((a) =>
      line(a, a.name, `${a.openMinutes} min to open, ${a.closeMinutes} to close`),
    );
  if (part === "rules") return recipe.rules.map((r) => line(r, ruleText(r, recipe), r.why));
  const groups = [...new Set([...recipe.groups.map((g) => g.key), ...recipe.options.map((o) => o.group)])];
  return groups.flatMap((key) => {
    const own = recipe.options.filter((o) => o.group === key);
    const group = recipe.groups.find((g) => g.key === key)?.name ?? `no group “${key}”`;
    return own.map((o, at) => ({
      ...line(
        o,
        o.name,
        [group, o.preset ? "ticked at the start" : "", o.roadUse ? "road use" : ""]
          .filter(Boolean)
          .join(" · "),
      ),
      first: at === 0,
      last: at === own.length - 1,
    }));
  });
}
