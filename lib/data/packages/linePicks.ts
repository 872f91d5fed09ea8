import type { ShopTx } from "@/lib/db/shop";
import { linesIn, withLinePicks } from "@/lib/domain/library/lines";
import type { LibraryPick, Recipe } from "@/lib/domain/packages/recipe";
import { textsIn } from "../library/read";

/** The recipe with one item's cautions and checks that read as the library's marked as picked from there. */
export async function linesPickedIn(
  tx: ShopTx,
  recipe: Recipe,
  part: LibraryPick["part"],
  key: string,
): Promise<Recipe> {
  const rows = await tx.libraryEntry.findMany({
    where: {
      kind: { in: ["caution", "check"] },
      active: true,
      name: { in: [...new Set(linesIn(recipe, part, key))] },
    },
    select: { key: true, print: true, name: true },
    orderBy: { id: "asc" },
    take: 200,
  });
  const own = (recipe.picks ?? []).filter((pick) => pick.line && pick.part === part && pick.key === key);
  const textOf = await textsIn(tx, own);
  const known = rows.map((row) => ({ entry: row.key, print: row.print, name: row.name }));
  return withLinePicks(recipe, part, key, known, (entry, print) => textOf(entry, print)?.name);
}
