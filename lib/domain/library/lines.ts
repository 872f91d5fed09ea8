import type { LibraryPick, Recipe } from "../packages/recipe";

const LINES = ["cautions", "closingChecks"] as const;

/** A caution or a check of the library, by its words. */
export interface LineKept {
  readonly entry: string;
  readonly print: string;
  readonly name: string;
}

/** The lines of an item that could be the library's. */
export function linesIn(recipe: Recipe, part: LibraryPick["part"], key: string): string[] {
  const item = recipe[part].find((one) => one.key === key);
  return item ? LINES.flatMap((line) => (line in item ? (item as unknown as Lined)[line] : [])) : [];
}

type Lined = Readonly<Record<(typeof LINES)[number], readonly string[]>>;

/**
 * The recipe with its picks of one item's lines as the lines stand now: a line that reads word for word as one of the library is
 * picked from there, and a pick whose line is gone is none any more. `textOf` answers the words of an earlier print.
 */
export function withLinePicks(
  recipe: Recipe,
  part: LibraryPick["part"],
  key: string,
  known: readonly LineKept[],
  textOf: (entry: string, print: string) => string | undefined,
): Recipe {
  const item = recipe[part].find((one) => one.key === key);
  const before = recipe.picks ?? [];
  const others = before.filter((pick) => !pick.line || pick.part !== part || pick.key !== key);
  const own = LINES.flatMap((line): LibraryPick[] => {
    const lines = item && line in item ? (item as unknown as Lined)[line] : [];
    const stays = before.filter(
      (pick) =>
        pick.line === line &&
        pick.part === part &&
        pick.key === key &&
        lines.includes(textOf(pick.entry, pick.print) ?? ""),
    );
    const fresh = known.filter(
      ({ entry, name }) => lines.includes(name) && !stays.some((pick) => pick.entry === entry),
    );
    return [...stays, ...fresh.map(({ entry, print }) => ({ entry, print, part, key, line }))];
  });
  const picks = [...others, ...own];
  return picks.length === 0 && !recipe.picks ? recipe : { ...recipe, picks };
}
