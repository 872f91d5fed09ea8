import type { LibraryPick, Recipe } from "../packages/recipe";
import { accessOf, type LibraryEntry, operationOf } from "./entry";
import { type Difference, mergeItem } from "./merge";
import type { Library } from "./pick";

/** A change of the library offered to a package that picked the entry. */
export interface Offer {
  readonly entry: string;
  readonly print: string;
  /** The package's item that it is of. */
  readonly item: string;
  readonly differences: readonly Difference[];
}

/** The text of an entry that a print stands for; undefined where this shop never had it. */
export type TextOf = (entry: string, print: string) => LibraryEntry | undefined;

/**
 * What the library says otherwise now of what a recipe picked from it, an offer for each pick that would change. An entry that
 * left the library offers nothing. Where the text it was picked as is unknown here, the package's own counts as that.
 */
export function offersOf(recipe: Recipe, library: Library, textOf: TextOf): Offer[] {
  return outdated(recipe, library).flatMap((pick) => {
    const { differences, item } = brought(recipe, pick, library, textOf);
    const print = library.get(pick.entry)?.print ?? "";
    return differences.length === 0 ? [] : [{ entry: pick.entry, print, item, differences }];
  });
}

/** The recipe with the offers of these entries taken: its items and lines brought up, and the picks with them. */
export function withOffers(
  recipe: Recipe,
  library: Library,
  textOf: TextOf,
  entries: readonly string[],
): Recipe {
  return outdated(recipe, library)
    .filter((pick) => entries.includes(pick.entry))
    .reduce((so, pick) => {
      const { recipe: after } = brought(so, pick, library, textOf);
      const print = library.get(pick.entry)?.print ?? pick.print;
      const up = (one: LibraryPick) => (same(one, pick) ? { ...one, print } : one);
      return { ...after, picks: (after.picks ?? []).map(up) };
    }, recipe);
}

const same = (a: LibraryPick, b: LibraryPick) =>
  a.entry === b.entry && a.part === b.part && a.key === b.key && a.line === b.line;

/** Picks whose entry has another text now. */
function outdated(recipe: Recipe, library: Library): LibraryPick[] {
  return (recipe.picks ?? []).filter((pick) => {
    const now = library.get(pick.entry);
    return now !== undefined && now.print !== pick.print;
  });
}

interface Brought {
  readonly recipe: Recipe;
  readonly item: string;
  readonly differences: readonly Difference[];
}

function brought(recipe: Recipe, pick: LibraryPick, library: Library, textOf: TextOf): Brought {
  const now = library.get(pick.entry)?.entry;
  const base = textOf(pick.entry, pick.print);
  const nothing = { recipe, item: "", differences: [] };
  if (!now) return nothing;
  if (pick.line) return lineBrought(recipe, pick, base?.name, now.name);
  const keep = () => undefined;
  if (pick.part === "accesses") {
    const own = recipe.accesses.find((one) => one.key === pick.key);
    if (!own || now.kind !== "access" || (base && base.kind !== "access")) return nothing;
    const was = base ? accessOf(base, own.key, keep) : own;
    const { item, differences } = mergeItem(own, was, accessOf(now, own.key, keep));
    const accesses = recipe.accesses.map((one) => (one === own ? item : one));
    return { recipe: { ...recipe, accesses }, item: own.name, differences };
  }
  const own = recipe.operations.find((one) => one.key === pick.key);
  if (!own || now.kind !== "operation" || (base && base.kind !== "operation")) return nothing;
  const was = base ? operationOf(base, own.key, own.grade, keep) : own;
  const { item, differences } = mergeItem(own, was, operationOf(now, own.key, own.grade, keep));
  const operations = recipe.operations.map((one) => (one === own ? item : one));
  return { recipe: { ...recipe, operations }, item: own.name, differences };
}

function lineBrought(recipe: Recipe, pick: LibraryPick, was: string | undefined, now: string): Brought {
  const list = recipe[pick.part] as readonly (object & { key: string; name: string })[];
  const own = list.find((one) => one.key === pick.key);
  const lines =
    own && pick.line ? ((own as unknown as Record<string, readonly string[]>)[pick.line] ?? []) : [];
  if (!own || !pick.line || was === undefined || !lines.includes(was))
    return { recipe, item: "", differences: [] };
  const changed = lines.map((line) => (line === was ? now : line));
  const items = list.map((one) => (one === own ? { ...one, [pick.line as string]: changed } : one));
  const what = pick.line === "cautions" ? "Caution" : "Check on closing";
  return {
    recipe: { ...recipe, [pick.part]: items } as Recipe,
    item: own.name,
    differences: [{ what, was, now, taken: true }],
  };
}
