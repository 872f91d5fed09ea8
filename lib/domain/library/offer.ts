import type { Access, LibraryPick, Operation, Recipe } from "../packages/recipe";
import { accessOf, type LibraryEntry, operationOf } from "./entry";
import { type Difference, mergeItem } from "./merge";
import { folded, type Library, withPicked } from "./pick";

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
  if (now.kind !== "access" && now.kind !== "operation") return nothing;
  const own = recipe[pick.part].find((one) => one.key === pick.key);
  if (!own || (base && base.kind !== now.kind)) return nothing;
  // What it needs open now and did not need is brought in first, with what that needs.
  const grade = "grade" in own ? own.grade : (recipe.operations[0]?.grade ?? "");
  const joined = withPicked(recipe, library, neededAnew(base, now), grade);
  const keyOf = keysIn(joined, library);
  const beside = joined[pick.part].find((one) => one.key === pick.key) ?? own;
  const nameOf = (key: string) =>
    [...joined.accesses, ...joined.operations].find((one) => one.key === key)?.name ?? key;
  const { item, differences } = mergeItem(own, asPicked(base, own, keyOf), asPicked(now, own, keyOf), nameOf);
  if (differences.length === 0) return nothing;
  const items = (joined[pick.part] as readonly (typeof own)[]).map((one) => (one === beside ? item : one));
  return { recipe: { ...joined, [pick.part]: items } as Recipe, item: own.name, differences };
}

/** Keys of the entries that one needs open now and did not when it was picked; nothing where that text is not known. */
function neededAnew(base: LibraryEntry | undefined, now: LibraryEntry): string[] {
  const open = (entry: LibraryEntry) =>
    entry.kind === "access" ? entry.needs : entry.kind === "operation" ? entry.accesses : [];
  return base ? open(now).filter((key) => !open(base).includes(key)) : [];
}

/** The key under which a recipe has an entry: as it was picked, else by its name. */
function keysIn(recipe: Recipe, library: Library): (entry: string) => string | undefined {
  const picked = new Map(
    (recipe.picks ?? []).flatMap(({ entry, key, line }) => (line ? [] : [[entry, key]])),
  );
  const items = [...recipe.accesses, ...recipe.operations];
  return (entry) => {
    const key = picked.get(entry);
    if (items.some((one) => one.key === key)) return key;
    const name = library.get(entry)?.entry.name;
    return name === undefined ? undefined : items.find((one) => folded(one.name) === folded(name))?.key;
  };
}

/** An entry as the package would have it beside its own item; where its text is unknown, the package's own is that. */
function asPicked<T extends Access | Operation>(
  entry: LibraryEntry | undefined,
  own: T,
  keyOf: (entry: string) => string | undefined,
): T {
  if (entry?.kind === "access") return accessOf(entry, own.key, keyOf) as T;
  if (entry?.kind === "operation")
    return operationOf(entry, own.key, "grade" in own ? own.grade : "", keyOf) as T;
  // Of its links nobody knows which came from there: the library only adds to them.
  return { ...own, ...("grade" in own ? { accesses: [], after: [] } : { needs: [], excludes: [] }) };
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
