import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { parseMoney } from "@/lib/domain/money/parse";
import { renamed } from "@/lib/domain/packages/named";
import { keptKits } from "@/lib/domain/packages/optionKits";
import type { Option, Recipe } from "@/lib/domain/packages/recipe";
import { freshKey, withItem } from "@/lib/domain/packages/withItem";
import { Refusal } from "@/lib/domain/refusal";
import type { ItemRef, RecipePart } from "@/lib/schemas/recipeItem";
import { hashOf } from "../common/hash";
import { type Draft, demandPackageDraft, storeDraft } from "./draft";
import { linesPickedIn } from "./linePicks";
import { storedRecipe } from "./stored";

/** What a form was drawn from, to see later whether someone else changed that very item. */
export function printOf(item: unknown): string {
  return hashOf(item).slice(0, 16);
}

/** The key of an item in its list; rules have none of their own and are known by their print. */
export function keyOf(item: object): string {
  return "key" in item ? String(item.key) : printOf(item);
}

export const WORD: Record<RecipePart, string> = {
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
    const draft = await demandPackageDraft(tx, ref.packageId);
    const list = draft.recipe[part] as readonly object[];
    const at = ref.key === "" ? -1 : list.findIndex((one) => keyOf(one) === ref.key);
    const there = list[at];
    await demandSeen(tx, part, ref, draft, there);
    const priced = await withPrice(tx, withKitsOf(part, there, item), fixedPrice);
    const own = there ? ref.key : freshKey(list.map(keyOf), "name" in item ? String(item.name) : "");
    const named = part === "rules" ? priced : { key: own, ...priced };
    const put = withItem(draft.recipe, part, there ? at : -1, named);
    const [keyed, key] = rekeyed(put, part, keyOf(named), ref.as ?? "");
    const recipe =
      part === "accesses" || part === "operations" ? await linesPickedIn(tx, keyed, part, key) : keyed;
    const act = there ? "changed" : "added";
    await storeDraft(tx, shop, ref.packageId, draft, storedRecipe(recipe), { act, part, key });
    return key;
  });
}

/** The recipe with the item's key as it is wanted, wherever it is named; refuses one that another item has. */
function rekeyed(recipe: Recipe, part: RecipePart, key: string, as: string): [Recipe, string] {
  if (part === "rules" || as === "" || as === key) return [recipe, key];
  const other = recipe[part].find((one) => one.key === as);
  if (other)
    throw new Refusal(`The key “${as}” belongs to “${other.name}”.`, "Choose another key.", {
      as: `“${other.name}” has this key: enter another.`,
    });
  return [renamed(recipe, part, key, as), as];
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

/** The form knows which of an option's parts came out of a kit, and nothing of its price. */
function withKitsOf(part: RecipePart, there: object | undefined, item: object): object {
  if (part !== "options") return item;
  const { kits = [] } = (there ?? {}) as Partial<Option>;
  return { ...item, ...keptKits((item as Option).parts, kits) };
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
