import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import type { KeptAlternative } from "@/lib/domain/pricing/taxWithin";
import { storedRecipe } from "../packages/stored";
import { hasOwnPrice, type TaxTerms, turnedPrices } from "./taxInPrices";

/**
 * A published revision never changes, so each with fixed prices that is sold or that a quote may still be revised from is
 * published anew with its prices turned, below the draft in work, whose prices are turned where they stand.
 */
export async function turnPackages(
  tx: ShopTx,
  shop: ShopHandle,
  terms: TaxTerms,
  to: KeptAlternative,
): Promise<void> {
  const turnedRecipe = (recipe: Recipe): Prisma.InputJsonValue =>
    ({
      ...recipe,
      options: recipe.options.map((option) => turnedPrices(option, terms, to)),
    }) as unknown as Prisma.InputJsonValue;
  const packages = await tx.package.findMany({ select: { id: true }, orderBy: { id: "asc" }, take: 500 });
  for (const { id: packageId } of packages) {
    const revisions = await tx.packageRevision.findMany({
      where: { packageId },
      select: {
        id: true,
        number: true,
        state: true,
        recipe: true,
        works: {
          where: { revision: { quote: { state: { in: ["draft", "sent", "declined", "expired"] } } } },
          select: { id: true },
          take: 1,
        },
      },
      orderBy: { number: "asc" },
      take: 500,
    });
    const newest = revisions.findLast((one) => one.state === "published");
    const draft = revisions.find((one) => one.state === "draft");
    const wanted = revisions.filter(
      (one) =>
        one.state === "published" &&
        (one === newest || one.works.length > 0) &&
        hasOwnPrice(storedRecipe(one.recipe)),
    );
    // The newest stays the newest, even where only an older one has fixed prices.
    const again = newest && wanted.length > 0 && !wanted.includes(newest) ? [...wanted, newest] : wanted;
    let number = Math.max(0, ...revisions.filter((one) => one !== draft).map((one) => one.number));
    if (draft)
      await tx.packageRevision.update({
        where: { id: draft.id },
        data: {
          number: number + again.length + 1,
          recipe: turnedRecipe(storedRecipe(draft.recipe)),
          version: { increment: 1 },
        },
        select: { id: true },
      });
    for (const one of again) {
      number += 1;
      const made = await tx.packageRevision.create({
        data: {
          packageId,
          number,
          state: "published",
          recipe: turnedRecipe(storedRecipe(one.recipe)),
          publishedAt: shop.now,
          createdAt: shop.now,
          convertedFrom: one.id,
        },
        select: { id: true },
      });
      await tx.quoteWork.updateMany({
        where: { packageRevisionId: one.id, revision: { frozenAt: null, quote: { state: "draft" } } },
        data: { packageRevisionId: made.id },
      });
    }
  }
}
