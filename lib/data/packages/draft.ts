import { demandOne } from "@/lib/db/guard";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { Refusal } from "@/lib/domain/refusal";
import { revisionOf } from "./checked";
import { storedRecipe } from "./stored";

export const EMPTY_RECIPE: Recipe = {
  format: "throttlewright-recipe",
  version: 2,
  groups: [],
  options: [],
  operations: [],
  accesses: [],
  rules: [],
};

export interface Draft {
  readonly id: number;
  readonly number: number;
  readonly version: number;
  readonly recipe: Recipe;
}

/** The package's draft to work on: the one that stands, else a copy of the newest published revision, else an empty one. */
export async function beginDraft(
  shop: ShopHandle,
  input: { packageId: number; key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "began a draft", input, () => beginDraftIn(tx, shop, input.packageId)),
  );
}

/** The same inside a write; answers the draft's number. */
export async function beginDraftIn(tx: ShopTx, shop: ShopHandle, packageId: number): Promise<number> {
  const newest = await newestOf(tx, packageId);
  if (newest?.state === "draft") return newest.number;
  const number = (newest?.number ?? 0) + 1;
  await tx.packageRevision.create({
    data: {
      packageId,
      number,
      state: "draft",
      ...revisionOf(newest ? storedRecipe(newest.recipe) : EMPTY_RECIPE),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await audit(tx, shop, "began revision", "package", packageId, { number });
  return number;
}

async function newestOf(tx: ShopTx, packageId: number) {
  const row = await tx.package.findUnique({
    where: { id: packageId },
    select: {
      revisions: {
        select: { id: true, number: true, state: true, version: true, recipe: true },
        orderBy: { number: "desc" },
        take: 1,
      },
    },
  });
  if (!row) throw new Refusal("There is no such package.", "Choose one from the list.", {}, "missing");
  return row.revisions[0];
}

/** The draft of a package inside a write; refuses where its newest revision has been published meanwhile. */
export async function demandPackageDraft(tx: ShopTx, packageId: number): Promise<Draft> {
  const newest = await newestOf(tx, packageId);
  if (newest?.state === "draft") return { ...newest, recipe: storedRecipe(newest.recipe) };
  throw new Refusal(
    newest ? `Revision ${newest.number} is published and frozen.` : "This package has no draft.",
    "Begin a new revision, then make the change there. What you typed is still here.",
    {},
    "conflict",
  );
}

/** Stores a draft's recipe, one version on, and tells the audit trail what was done to what. */
export async function storeDraft(
  tx: ShopTx,
  shop: ShopHandle,
  packageId: number,
  draft: Draft,
  recipe: Recipe,
  did: { act: string; part: string; key: string },
): Promise<void> {
  const version = draft.version + 1;
  await demandOne(
    tx.packageRevision.updateMany({
      where: { id: draft.id, state: "draft", version: draft.version },
      data: { ...revisionOf(recipe), version },
    }),
    () =>
      new Refusal(
        "Someone saved this draft in the same moment.",
        "Save once more: what you typed is still here.",
        {},
        "conflict",
      ),
  );
  await audit(tx, shop, did.act, "package", packageId, {
    number: draft.number,
    version,
    part: did.part,
    key: did.key,
  });
}

/** Throws a draft away; what is published stays. Answers the recipe, to bring it back. */
export async function dropDraft(
  shop: ShopHandle,
  input: { packageId: number; version: number },
): Promise<{ number: number; before: string }> {
  return shop.write(async (tx) => {
    const draft = await demandPackageDraft(tx, input.packageId);
    await demandOne(
      tx.packageRevision.deleteMany({
        where: { id: draft.id, state: "draft", version: input.version },
      }),
      () =>
        new Refusal(
          "Someone changed this draft since you opened it.",
          "Look at it as it stands now, then throw it away.",
          {},
          "conflict",
        ),
    );
    await audit(tx, shop, "threw draft away", "package", input.packageId, { number: draft.number });
    return { number: draft.number, before: JSON.stringify(draft.recipe) };
  });
}
