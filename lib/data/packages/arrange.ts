import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle } from "@/lib/db/shop";
import { namedBy } from "@/lib/domain/packages/named";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { without } from "@/lib/domain/packages/without";
import { Refusal } from "@/lib/domain/refusal";
import type { RecipePart } from "@/lib/schemas/recipeItem";
import { demandPackageDraft, storeDraft } from "./draft";
import { keyOf, WORD } from "./items";
import { storedRecipe } from "./stored";

/** The next place in its list either way; an option's within its group, where it is seen. Below nothing: there is none. */
function neighbour(list: readonly object[], at: number, way: "up" | "down"): number {
  const groupOf = (item: object | undefined) => (item && "group" in item ? item.group : undefined);
  const group = groupOf(list[at]);
  const near = list.map((_, index) => index).filter((index) => groupOf(list[index]) === group);
  return (way === "up" ? near.filter((index) => index < at).at(-1) : near.find((index) => index > at)) ?? -1;
}

/** Moves an item one place up or down in its list, an option within its group. */
export async function moveItem(
  shop: ShopHandle,
  input: { packageId: number; part: RecipePart; key: string; way: "up" | "down" },
): Promise<void> {
  await shop.write(async (tx) => {
    const draft = await demandPackageDraft(tx, input.packageId);
    const list = [...(draft.recipe[input.part] as readonly object[])];
    const at = list.findIndex((one) => keyOf(one) === input.key);
    const to = neighbour(list, at, input.way);
    const [one, other] = [list[at], list[to]];
    if (!one || !other) return;
    list[at] = other;
    list[to] = one;
    const recipe = storedRecipe({ ...draft.recipe, [input.part]: list });
    await storeDraft(tx, shop, input.packageId, draft, recipe, {
      act: "moved",
      part: input.part,
      key: input.key,
    });
  });
}

export interface Removed {
  readonly name: string;
  /** What named it, in words: it does so no more, and rules that stood on it are gone with it. */
  readonly namedBy: readonly string[];
  readonly version: number;
  readonly before: string;
}

/**
 * Takes an item out of a draft, and out of whatever names it; a group only once no option stands in it. Answers what named it,
 * and what is needed to put it all back.
 */
export async function removeItem(
  shop: ShopHandle,
  input: { packageId: number; part: RecipePart; key: string },
): Promise<Removed> {
  return shop.write(async (tx) => {
    const draft = await demandPackageDraft(tx, input.packageId);
    const list = draft.recipe[input.part] as readonly object[];
    const item = list.find((one) => keyOf(one) === input.key);
    if (!item) throw new Refusal(`This ${WORD[input.part]} is gone already.`, "", {}, "conflict");
    const named = namedBy(draft.recipe, input.part, input.key);
    if (input.part === "groups" && named.length > 0)
      throw new Refusal(
        `The group still holds ${named.join(", ")}.`,
        "Move them into another group, or take them out first.",
      );
    const rest = list.filter((one) => one !== item);
    const recipe = without({ ...draft.recipe, [input.part]: rest } as Recipe, input.part, input.key);
    await storeDraft(tx, shop, input.packageId, draft, recipe, {
      act: "removed",
      part: input.part,
      key: input.key,
    });
    const name = "name" in item ? String(item.name) : WORD[input.part];
    return { name, namedBy: named, version: draft.version + 1, before: JSON.stringify(draft.recipe) };
  });
}

/** Puts a draft back as it was before a removal, unless it has been changed since. */
export async function putBack(
  shop: ShopHandle,
  input: { packageId: number; version: number; recipe: Recipe },
): Promise<void> {
  await shop.write(async (tx) => {
    const draft = await demandPackageDraft(tx, input.packageId);
    if (draft.version !== input.version)
      throw new Refusal("The draft was changed after that.", "Add what is missing by hand.", {}, "conflict");
    await storeDraft(tx, shop, input.packageId, draft, input.recipe, {
      act: "put back",
      part: "recipe",
      key: "",
    });
  });
}

/** The package's own words: name, code and what it is for. */
export async function renamePackage(
  shop: ShopHandle,
  input: { packageId: number; version: number; name: string; summary: string },
): Promise<void> {
  const { packageId, version, name, summary } = input;
  await shop.write(async (tx) => {
    await demandOne(
      tx.package.updateMany({
        where: { id: packageId, version },
        data: { name, summary, version: { increment: 1 } },
      }),
      () => new Refusal("The package was changed since you opened it.", "Open it again.", {}, "conflict"),
    );
    await audit(tx, shop, "renamed", "package", packageId, { name });
  });
}
