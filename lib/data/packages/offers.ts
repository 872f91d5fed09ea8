import { once } from "@/lib/db/once";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { type Offer, offersOf, withOffers } from "@/lib/domain/library/offer";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { Refusal } from "@/lib/domain/refusal";
import { libraryIn, textsIn } from "../library/read";
import { beginDraftIn, demandPackageDraft, storeDraft } from "./draft";
import { storedRecipe } from "./stored";

type Reads = Pick<ShopTx, "libraryEntry" | "libraryEdition" | "libraryLeft" | "packageRevision" | "package">;

/** A package whose newest revision picked entries that read otherwise now. */
export interface Behind {
  readonly packageId: number;
  readonly code: string;
  readonly name: string;
  /** Keys of the entries. */
  readonly entries: readonly string[];
}

interface Picked {
  readonly entry: string;
  readonly print: string;
}

/** Which packages the library has changed under, from what is kept beside their newest revisions: no recipe is read. */
export async function packagesBehind(shop: ShopHandle, only?: number): Promise<Behind[]> {
  const packages = await shop.read.package.findMany({
    where: { active: true, ...(only === undefined ? {} : { id: only }) },
    select: {
      id: true,
      code: true,
      name: true,
      revisions: { select: { picked: true }, orderBy: { number: "desc" }, take: 1 },
    },
    orderBy: { code: "asc" },
    take: 200,
  });
  const pickedOf = (row: (typeof packages)[number]) =>
    (row.revisions[0]?.picked ?? []) as unknown as Picked[];
  if (packages.every((row) => pickedOf(row).length === 0)) return [];
  const entries = await shop.read.libraryEntry.findMany({
    where: { active: true },
    select: { key: true, print: true },
    orderBy: { id: "asc" },
    take: 1000,
  });
  const left = await leftOf(
    shop.read,
    packages.map(({ id }) => id),
  );
  const now = new Map(entries.map(({ key, print }) => [key, print]));
  return packages.flatMap((row) => {
    const behind = pickedOf(row).filter(({ entry, print }) => {
      const is = now.get(entry);
      return is !== undefined && is !== print && !left.has(`${row.id} ${entry} ${is}`);
    });
    const { id, code, name } = row;
    const keys = [...new Set(behind.map(({ entry }) => entry))];
    return keys.length === 0 ? [] : [{ packageId: id, code, name, entries: keys }];
  });
}

async function leftOf(tx: Pick<ShopTx, "libraryLeft">, packages: readonly number[]): Promise<Set<string>> {
  const rows = await tx.libraryLeft.findMany({
    where: { packageId: { in: [...packages] } },
    select: { packageId: true, entryKey: true, print: true },
    orderBy: [{ packageId: "asc" }, { entryKey: "asc" }, { print: "asc" }],
    take: 5000,
  });
  return new Set(rows.map((row) => `${row.packageId} ${row.entryKey} ${row.print}`));
}

/** What the library offers a package, with each difference; those that were left are not among them. */
export async function offersTo(shop: ShopHandle, packageId: number): Promise<Offer[]> {
  const newest = await shop.read.packageRevision.findFirst({
    where: { packageId },
    select: { recipe: true },
    orderBy: { number: "desc" },
  });
  if (!newest) return [];
  const { offers } = await offeredIn(shop.read, packageId, storedRecipe(newest.recipe));
  return offers;
}

async function offeredIn(tx: Reads, packageId: number, recipe: Recipe) {
  const library = await libraryIn(tx);
  const textOf = await textsIn(tx, recipe.picks ?? []);
  const left = await leftOf(tx, [packageId]);
  const offers = offersOf(recipe, library, textOf).filter(
    ({ entry, print }) => !left.has(`${packageId} ${entry} ${print}`),
  );
  return { library, textOf, offers };
}

/**
 * Takes what the library offers into the package's draft, which is begun where none stands; or leaves it, so that this text of
 * it is offered no more. Refuses an offer that was changed since it was shown. Answers the draft's number, or null.
 */
export async function answerOffers(
  shop: ShopHandle,
  input: {
    packageId: number;
    answer: "take" | "leave";
    offers: readonly (readonly [entry: string, print: string])[];
    key?: string | undefined;
  },
): Promise<number | null> {
  const { packageId, answer } = input;
  return shop.write((tx) =>
    once(tx, shop, "answered the library", input, async () => {
      if (answer === "take") await beginDraftIn(tx, shop, packageId);
      const recipe = await newestRecipe(tx, packageId);
      const { library, textOf, offers } = await offeredIn(tx, packageId, recipe);
      const stands = ([entry, print]: readonly [string, string]) =>
        offers.some((offer) => offer.entry === entry && offer.print === print);
      if (!input.offers.every(stands))
        throw new Refusal(
          "The library or the package was changed since you looked.",
          "Look at the differences as they are now, and tick again.",
          {},
          "conflict",
        );
      const entries = input.offers.map(([entry]) => entry);
      if (answer === "leave") {
        for (const [entryKey, print] of new Map(input.offers))
          await tx.libraryLeft.create({
            data: { packageId, entryKey, print, personName: shop.by.name, at: shop.now },
            select: { packageId: true },
          });
        await audit(tx, shop, "left the library’s change", "package", packageId, { entries });
        return null;
      }
      const draft = await demandPackageDraft(tx, packageId);
      const brought = storedRecipe(withOffers(recipe, library, textOf, entries));
      const key = entries.slice(0, 20).join(" ");
      await storeDraft(tx, shop, packageId, draft, brought, {
        act: "took the library’s change",
        part: "library",
        key,
      });
      return draft.number;
    }),
  );
}

async function newestRecipe(tx: ShopTx, packageId: number): Promise<Recipe> {
  const row = await tx.packageRevision.findFirst({
    where: { packageId },
    select: { recipe: true },
    orderBy: { number: "desc" },
  });
  if (!row) throw new Refusal("There is no such package.", "Choose one from the list.", {}, "missing");
  return storedRecipe(row.recipe);
}
