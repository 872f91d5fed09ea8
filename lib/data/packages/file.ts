import { z } from "zod";
import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { Refusal } from "@/lib/domain/refusal";
import {
  type CopyPackage,
  type ImportPackage,
  type PackageFile,
  PackageFileSchema,
} from "@/lib/schemas/packages";
import { libraryIn } from "../library/read";
import { addEntriesIn } from "../library/write";
import { revisionOf } from "./checked";
import { getPackage } from "./get";
import { storedRecipe } from "./stored";

/** One revision of a package as a file: the one asked for, else the newest. Null where there is none. */
export async function packageFile(
  shop: ShopHandle,
  id: number,
  revision?: number,
): Promise<PackageFile | null> {
  const found = await getPackage(shop, id, revision);
  if (!found?.shown) return null;
  const { code, name, summary, shown } = found;
  const library = await entriesPicked(shop, shown.recipe);
  return {
    format: "throttlewright-package",
    version: 1,
    code,
    name,
    summary,
    revision: shown.number,
    recipe: shown.recipe,
    ...(library.length > 0 ? { library } : {}),
  };
}

/** The library's entries that a recipe picked, as they stand. */
async function entriesPicked(shop: ShopHandle, recipe: Recipe): Promise<NonNullable<PackageFile["library"]>> {
  const picked = new Set((recipe.picks ?? []).map(({ entry }) => entry));
  if (picked.size === 0) return [];
  const library = await libraryIn(shop.read);
  return [...picked].flatMap((key) => library.get(key)?.entry ?? []);
}

/** The JSON Schema of a package's file, for whoever writes or checks one elsewhere. */
export function packageFileSchema(): object {
  return z.toJSONSchema(PackageFileSchema, { io: "input" });
}

interface New {
  readonly code: string;
  readonly name: string;
  readonly summary: string;
  readonly recipe: Recipe;
}

/** Makes a package with its first draft inside a write. Refuses a code that is taken. */
export async function createIn(
  tx: ShopTx,
  shop: ShopHandle,
  { code, name, summary, recipe }: New,
  act: string,
): Promise<number> {
  const taken = await tx.package.findUnique({ where: { code }, select: { name: true } });
  if (taken)
    throw new Refusal(`The code ${code} belongs to “${taken.name}”.`, "Choose another code.", {
      code: "This code is taken: enter another.",
    });
  const { id } = await tx.package.create({
    data: {
      code,
      name,
      summary,
      revisions: {
        create: { number: 1, state: "draft", ...revisionOf(recipe), createdAt: shop.now },
      },
    },
    select: { id: true },
  });
  await audit(tx, shop, act, "package", id, { code });
  return id;
}

/**
 * A new package from a file, as a draft: it is checked like any other before it can be published. What it picked comes to the
 * library where that has no entry of the key.
 */
export async function importPackage(
  shop: ShopHandle,
  input: ImportPackage & { key?: string | undefined },
): Promise<number> {
  const { file, code, name } = input;
  const { summary, recipe } = file;
  return shop.write((tx) =>
    once(tx, shop, "imported a package", input, async () => {
      await addEntriesIn(tx, shop, file.library ?? []);
      const named = { code: code || file.code, name: name || file.name };
      return createIn(tx, shop, { ...named, summary, recipe }, "imported");
    }),
  );
}

/** A new package that begins as a copy of another's newest revision. */
export async function copyPackage(
  shop: ShopHandle,
  input: CopyPackage & { key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "copied a package", input, async () => {
      const row = await tx.package.findUnique({
        where: { id: input.packageId },
        select: {
          summary: true,
          revisions: { select: { recipe: true }, orderBy: { number: "desc" }, take: 1 },
        },
      });
      const newest = row?.revisions[0];
      if (!row || !newest)
        throw new Refusal("There is nothing to copy yet.", "Write its first revision.", {}, "missing");
      const { code, name } = input;
      const recipe = storedRecipe(newest.recipe);
      return createIn(tx, shop, { code, name, summary: row.summary, recipe }, "copied");
    }),
  );
}
