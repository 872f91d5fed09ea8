import type { ShopHandle } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { type Lack, lacks, namesOf } from "@/lib/domain/packages/supplies";
import { mergedCodes } from "../common/mergedCodes";

/** What a recipe names that this shop does not have: parts and drawers of stock, labour grades. */
export async function recipeLacks(shop: ShopHandle, recipe: Recipe): Promise<Lack[]> {
  const named = namesOf(recipe);
  const [merged, parts, jets, grades] = await Promise.all([
    mergedCodes(shop.read, [...named.codes]),
    shop.read.part.findMany({
      where: { code: { in: [...named.codes] }, active: true },
      select: { code: true },
      orderBy: { code: "asc" },
    }),
    shop.read.part.findMany({
      where: { family: { in: [...named.families] }, kind: "jet", active: true },
      select: { family: true },
      distinct: ["family"],
      orderBy: { family: "asc" },
    }),
    shop.read.labourGrade.findMany({ select: { code: true }, orderBy: { id: "asc" }, take: 200 }),
  ]);
  return lacks(recipe, {
    codes: [...parts.map((part) => part.code), ...merged.keys()],
    families: jets.map((jet) => jet.family),
    grades: grades.map((grade) => grade.code),
  });
}
