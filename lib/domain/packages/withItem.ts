import { searchKey } from "../searchKey";
import type { ItemPart, Recipe } from "./recipe";

/** A recipe with one item put in place of another of its list, or added at the end where `at` is below nothing. */
export function withItem(recipe: Recipe, part: ItemPart, at: number, item: object): Recipe {
  const list = recipe[part] as readonly object[];
  return { ...recipe, [part]: at < 0 || at >= list.length ? [...list, item] : list.with(at, item) } as Recipe;
}

/** A key made of a name, with a number where it is taken: nobody has to invent one. */
export function freshKey(taken: readonly string[], name: string): string {
  const plain = searchKey(name)
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-|-$/g, "")
    .slice(0, 50);
  const base = plain || "item";
  for (let n = 1; ; n++) {
    const key = n === 1 ? base : `${base}-${n}`;
    if (!taken.includes(key)) return key;
  }
}
