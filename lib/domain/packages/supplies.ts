import type { PartNeed, Recipe } from "./recipe";

/** What a shop has that a recipe may name. */
export interface Stocked {
  readonly codes: readonly string[];
  readonly families: readonly string[];
  readonly grades: readonly string[];
}

/** Something a recipe names that the shop does not have. It can be published so; a quote made of it then says so. */
export interface Lack {
  readonly what: "part" | "family" | "grade";
  readonly name: string;
  /** The options and operations that name it. */
  readonly where: readonly string[];
}

/** All that a recipe names in stock and in labour, each once. */
export function namesOf(recipe: Pick<Recipe, "options" | "operations">): Stocked {
  const needs = [...recipe.options, ...recipe.operations].flatMap((item) => item.parts);
  const each = (names: readonly string[]) => [...new Set(names)];
  return {
    codes: each(needs.flatMap((need) => (need.kind === "part" ? [need.code] : []))),
    families: each(needs.flatMap((need) => (need.kind === "jet" ? [need.family] : []))),
    grades: each(recipe.operations.map((operation) => operation.grade)),
  };
}

/** What of it the shop lacks, with the places that name it. */
export function lacks(recipe: Pick<Recipe, "options" | "operations">, has: Stocked): Lack[] {
  const named = namesOf(recipe);
  const items = [
    ...recipe.options.map((o) => ({ said: `option “${o.name}”`, parts: o.parts, grade: "" })),
    ...recipe.operations.map((o) => ({ said: `operation “${o.name}”`, parts: o.parts, grade: o.grade })),
  ];
  const missing = (
    what: Lack["what"],
    names: readonly string[],
    known: readonly string[],
    uses: (item: (typeof items)[number], name: string) => boolean,
  ): Lack[] =>
    names
      .filter((name) => !known.includes(name))
      .map((name) => ({
        what,
        name,
        where: items.filter((item) => uses(item, name)).map((item) => item.said),
      }));
  const needed = (kind: PartNeed["kind"], name: string) => (need: PartNeed) =>
    need.kind === kind && (need.kind === "part" ? need.code : need.family) === name;
  return [
    ...missing("grade", named.grades, has.grades, (item, name) => item.grade === name),
    ...missing("part", named.codes, has.codes, (item, name) => item.parts.some(needed("part", name))),
    ...missing("family", named.families, has.families, (item, name) => item.parts.some(needed("jet", name))),
  ];
}

/** A lack in a sentence, with what to do. */
export function lackText({ what, name, where }: Lack): string {
  const at = where.join(", ");
  if (what === "grade")
    return `The shop has no labour grade “${name}” (${at}): add it in the shop's settings, or choose another; until then no quote of it can be sent.`;
  if (what === "part") return `No part “${name}” is in stock's list (${at}): add it there, or name another.`;
  return `No drawer of jets is called “${name}” (${at}): give jets that family in stock, or name another.`;
}
