import type { Access, LibraryPick, Operation, Option, Recipe } from "../packages/recipe";
import { freshKey } from "../packages/withItem";
import { type AccessEntry, accessOf, type LibraryEntry, type OperationEntry, operationOf } from "./entry";

/** An entry as it stands now, and the print that tells this text of it from others. */
export interface Kept {
  readonly entry: LibraryEntry;
  readonly print: string;
}
export type Library = ReadonlyMap<string, Kept>;

/** A name as packages and the library meet by it. */
export const folded = (name: string) => name.trim().replace(/\s+/g, " ").toLowerCase();

/**
 * A recipe with entries of the library added to it: what an operation needs open, and what that needs, comes with it. What the
 * recipe has already (picked before, or of the same name) is not added again; entries that are new to each other and to those
 * picked before are put in order and kept apart as the library says. Operations get the `grade`. Unknown keys add nothing.
 */
export function withPicked(
  recipe: Recipe,
  library: Library,
  wanted: readonly string[],
  grade: string,
): Recipe {
  const entries = [...withNeeds(library, wanted)].flatMap((key) => library.get(key)?.entry ?? []);
  const keys = new Map<string, string>();
  for (const { entry, part, key, line } of recipe.picks ?? [])
    if (!line && recipe[part].some((one) => one.key === key)) keys.set(entry, key);
  const taken = {
    accesses: recipe.accesses.map(({ key }) => key),
    operations: recipe.operations.map(({ key }) => key),
  };
  const added = entries.filter((entry): entry is AccessEntry | OperationEntry => {
    if (entry.kind !== "access" && entry.kind !== "operation") return false;
    if (keys.has(entry.key)) return false;
    const part = partOf(entry);
    const same = recipe[part].find((one) => folded(one.name) === folded(entry.name));
    if (same) {
      keys.set(entry.key, same.key);
      return false;
    }
    const key = taken[part].includes(entry.key) ? freshKey(taken[part], entry.name) : entry.key;
    taken[part].push(key);
    keys.set(entry.key, key);
    return true;
  });
  const keyOf = (entry: string) => keys.get(entry);
  const own = (entry: LibraryEntry) => keys.get(entry.key) ?? entry.key;
  const fresh = new Set(added.map(own));
  const joined = { library, recipe, keyOf, fresh };
  return {
    ...recipe,
    accesses: [
      ...recipe.accesses.map((access) => accessBeside(access, joined)),
      ...added.flatMap((entry): Access[] =>
        entry.kind === "access" ? [accessOf(entry, own(entry), keyOf)] : [],
      ),
    ],
    operations: [
      ...recipe.operations.map((operation) => operationBeside(operation, joined)),
      ...added.flatMap((entry): Operation[] =>
        entry.kind === "operation" ? [operationOf(entry, own(entry), grade, keyOf)] : [],
      ),
    ],
    picks: [
      ...(recipe.picks ?? []),
      ...added.map(
        (entry): LibraryPick => ({
          entry: entry.key,
          print: library.get(entry.key)?.print ?? "",
          part: partOf(entry),
          key: own(entry),
        }),
      ),
    ],
  };
}

/** The operations of a recipe that these entries came in as, in the entries' order. */
export function operationsPicked(recipe: Recipe, entries: readonly string[]): string[] {
  return entries.flatMap(
    (entry) =>
      recipe.picks?.find((pick) => pick.entry === entry && pick.part === "operations" && !pick.line)?.key ??
      [],
  );
}

/** A recipe with one more option that does these operations: in its first group, or in one of its own where there is none. */
export function withOption(recipe: Recipe, name: string, operations: readonly string[]): Recipe {
  const group = recipe.groups[0] ?? { key: "work", name: "Work", choose: "exactly one" as const };
  const option: Option = {
    key: freshKey(
      recipe.options.map(({ key }) => key),
      name,
    ),
    group: group.key,
    name,
    plain: "",
    operations,
    parts: [],
    changes: [],
    cautions: [],
    preset: !recipe.options.some((one) => one.group === group.key && one.preset),
    roadUse: false,
  };
  return {
    ...recipe,
    groups: recipe.groups.length > 0 ? recipe.groups : [group],
    options: [...recipe.options, option],
  };
}

const partOf = (entry: LibraryEntry): "accesses" | "operations" =>
  entry.kind === "operation" ? "operations" : "accesses";

function withNeeds(library: Library, wanted: readonly string[]): Set<string> {
  const found = new Set<string>();
  const add = (key: string) => {
    const entry = library.get(key)?.entry;
    if (!entry || found.has(key)) return;
    found.add(key);
    if (entry.kind === "operation") entry.accesses.forEach(add);
    if (entry.kind === "access") entry.needs.forEach(add);
  };
  wanted.forEach(add);
  return found;
}

interface Joined {
  readonly library: Library;
  readonly recipe: Recipe;
  readonly keyOf: (entry: string) => string | undefined;
  /** Keys of what is being added. */
  readonly fresh: ReadonlySet<string>;
}

function entryBehind({ library, recipe }: Joined, part: LibraryPick["part"], key: string) {
  const pick = recipe.picks?.find((one) => one.part === part && one.key === key && !one.line);
  return pick && library.get(pick.entry)?.entry;
}

/** What was picked before is kept apart from what comes now, where the library says so. */
function accessBeside(access: Access, joined: Joined): Access {
  const entry = entryBehind(joined, "accesses", access.key);
  if (entry?.kind !== "access") return access;
  const more = entry.excludes
    .flatMap((other) => joined.keyOf(other) ?? [])
    .filter((key) => joined.fresh.has(key));
  return more.length === 0 ? access : { ...access, excludes: [...new Set([...access.excludes, ...more])] };
}

function operationBeside(operation: Operation, joined: Joined): Operation {
  const entry = entryBehind(joined, "operations", operation.key);
  if (entry?.kind !== "operation") return operation;
  const more = entry.after
    .flatMap((other) => joined.keyOf(other) ?? [])
    .filter((key) => joined.fresh.has(key));
  return more.length === 0 ? operation : { ...operation, after: [...new Set([...operation.after, ...more])] };
}
