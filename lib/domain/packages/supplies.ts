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
  const uses = [
    ...recipe.options.map((o) => ({ said: `option “${o.name}”`, parts: o.parts, grade: null })),
    ...recipe.operations.map((o) => ({ said: `operation “${o.name}”`, parts: o.parts, grade: o.grade })),
  ].flatMap(({ said, parts, grade }) => [
    ...(grade === null ? [] : [{ what: "grade" as const, name: grade, said }]),
    ...parts.map((need: PartNeed) =>
      need.kind === "part"
        ? { what: "part" as const, name: need.code, said }
        : { what: "family" as const, name: need.family, said },
    ),
  ]);
  const missing = (what: Lack["what"], known: readonly string[]): Lack[] => {
    const there = new Set(known);
    const named = Map.groupBy(
      uses.filter((use) => use.what === what && !there.has(use.name)),
      (use) => use.name,
    );
    return [...named].map(([name, at]) => ({ what, name, where: [...new Set(at.map((use) => use.said))] }));
  };
  return [...missing("grade", has.grades), ...missing("part", has.codes), ...missing("family", has.families)];
}

/** A lack in a sentence, with what to do. */
export function lackText({ what, name, where }: Lack): string {
  const at = where.join(", ");
  if (what === "grade")
    return `The shop has no labour grade “${name}” (${at}): add it in the shop's settings, or choose another; until then no quote of it can be sent.`;
  if (what === "part") return `No part “${name}” is in stock's list (${at}): add it there, or name another.`;
  return `No drawer of jets is called “${name}” (${at}): give jets that family in stock, or name another.`;
}
