import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { parseMoney } from "@/lib/domain/money/parse";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { without } from "@/lib/domain/packages/without";
import { Refusal } from "@/lib/domain/refusal";
import { searchKey } from "@/lib/domain/searchKey";
import type { ItemRef, RecipePart } from "@/lib/schemas/recipeForms";
import { hashOf } from "../quotes/frozen";
import { type Draft, demandDraft, storeDraft } from "./draft";
import { storedRecipe } from "./stored";

/** What a form was drawn from, to see later whether someone else changed that very item. */
export function printOf(item: unknown): string {
  return hashOf(item).slice(0, 16);
}

/** The key of an item in its list; rules have none of their own and are known by their print. */
export function keyOf(item: object): string {
  return "key" in item ? String(item.key) : printOf(item);
}

const WORD: Record<RecipePart, string> = {
  groups: "group",
  options: "option",
  operations: "operation",
  accesses: "access",
  rules: "rule",
};

/**
 * Puts one item of a draft in place of what it was, or adds it. Others may change other items meanwhile; where they changed
 * this one, the save is refused and tells who, and `over.<version>` saves over it. Answers the item's key.
 */
export async function saveItem(
  shop: ShopHandle,
  part: RecipePart,
  ref: ItemRef,
  item: object,
  fixedPrice = "",
): Promise<string> {
  return shop.write(async (tx) => {
    const draft = await demandDraft(tx, ref.packageId);
    const list = draft.recipe[part] as readonly object[];
    const at = ref.key === "" ? -1 : list.findIndex((one) => keyOf(one) === ref.key);
    const there = list[at];
    await demandSeen(tx, part, ref, draft, there);
    const priced = await withPrice(tx, item, fixedPrice);
    const named = part === "rules" ? priced : { key: there ? ref.key : freshKey(list, priced), ...priced };
    const items = there ? list.with(at, named) : [...list, named];
    const act = there ? "changed" : "added";
    const key = keyOf(named);
    const recipe = storedRecipe({ ...draft.recipe, [part]: items });
    await storeDraft(tx, shop, ref.packageId, draft, recipe, { act, part, key });
    return key;
  });
}

async function demandSeen(
  tx: ShopTx,
  part: RecipePart,
  ref: ItemRef,
  draft: Draft,
  there: object | undefined,
): Promise<void> {
  if (ref.key === "" || (there && printOf(there) === ref.seen)) return;
  const over = Object.keys(ref.over ?? {}).map(Number);
  if (over.includes(draft.version)) return;
  const last = await tx.auditEntry.findFirst({
    where: { noun: "package", nounId: ref.packageId },
    select: { personName: true },
    orderBy: { id: "desc" },
  });
  const who = last?.personName ?? "Someone";
  throw new Refusal(
    there
      ? `${who} changed this ${WORD[part]} while you were typing. Nothing of yours was saved or lost.`
      : `${who} took this ${WORD[part]} out while you were typing. Nothing of yours was saved or lost.`,
    "Look at it in another tab; to save yours all the same, tick “Save mine over these changes”.",
    { [`over.${draft.version}`]: "Tick this to save yours over what is there now." },
    "conflict",
  );
}

async function withPrice(tx: ShopTx, item: object, typed: string): Promise<object> {
  if (typed === "") return item;
  const { currency, locale } = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { currency: true, locale: true },
  });
  try {
    const fixedPriceMinor = parseMoney(typed, currency, locale);
    if (fixedPriceMinor >= 0) return { ...item, fixedPriceMinor };
    throw new Refusal("A price cannot be below zero.");
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    const said = `${cause.message} ${cause.remedy}`.trim();
    throw new Refusal("The fixed price cannot be read.", "Look at the marked field.", { fixedPrice: said });
  }
}

/** A key from the name, with a number where it is taken: nobody has to invent one. */
function freshKey(list: readonly object[], item: object): string {
  const name = "name" in item ? String(item.name) : "item";
  const base =
    searchKey(name)
      .replace(/[^a-z0-9]+/g, "-")
      .replace(/^-|-$/g, "")
      .slice(0, 50) || "item";
  const taken = new Set(list.map(keyOf));
  for (let n = 1; ; n++) {
    const key = n === 1 ? base : `${base}-${n}`;
    if (!taken.has(key)) return key;
  }
}

/** Moves an item one place up or down in its list. */
export async function moveItem(
  shop: ShopHandle,
  input: { packageId: number; part: RecipePart; key: string; way: "up" | "down" },
): Promise<void> {
  await shop.write(async (tx) => {
    const draft = await demandDraft(tx, input.packageId);
    const list = [...(draft.recipe[input.part] as readonly object[])];
    const at = list.findIndex((one) => keyOf(one) === input.key);
    const to = at + (input.way === "up" ? -1 : 1);
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

/** Takes an item out of a draft, and out of whatever names it. Answers what is needed to put it all back. */
export async function removeItem(
  shop: ShopHandle,
  input: { packageId: number; part: RecipePart; key: string },
): Promise<{ name: string; version: number; before: string }> {
  return shop.write(async (tx) => {
    const draft = await demandDraft(tx, input.packageId);
    const list = draft.recipe[input.part] as readonly object[];
    const item = list.find((one) => keyOf(one) === input.key);
    if (!item) throw new Refusal(`This ${WORD[input.part]} is gone already.`, "", {}, "conflict");
    const rest = list.filter((one) => one !== item);
    const recipe = without({ ...draft.recipe, [input.part]: rest } as Recipe, input.part, input.key);
    await storeDraft(tx, shop, input.packageId, draft, recipe, {
      act: "removed",
      part: input.part,
      key: input.key,
    });
    const name = "name" in item ? String(item.name) : WORD[input.part];
    return { name, version: draft.version + 1, before: JSON.stringify(draft.recipe) };
  });
}

/** Puts a draft back as it was before a removal, unless it has been changed since. */
export async function putBack(
  shop: ShopHandle,
  input: { packageId: number; version: number; recipe: Recipe },
): Promise<void> {
  await shop.write(async (tx) => {
    const draft = await demandDraft(tx, input.packageId);
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
    const { count } = await tx.package.updateMany({
      where: { id: packageId, version },
      data: { name, summary, version: { increment: 1 } },
    });
    if (count !== 1)
      throw new Refusal("The package was changed since you opened it.", "Open it again.", {}, "conflict");
    await audit(tx, shop, "renamed", "package", packageId, { name });
  });
}
