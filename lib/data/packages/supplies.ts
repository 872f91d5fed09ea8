import type { ShopHandle } from "@/lib/db/shop";

/** What a recipe may name from the shop: part codes, families of jets, labour grades. */
export interface Supplies {
  readonly parts: readonly { readonly code: string; readonly name: string }[];
  readonly families: readonly string[];
  readonly grades: readonly { readonly code: string; readonly name: string }[];
}

/** The first few hundred parts by code, to choose from while typing; others can be typed in full. */
export async function recipeSupplies(shop: ShopHandle): Promise<Supplies> {
  const [parts, jets, grades] = await Promise.all([
    shop.read.part.findMany({
      where: { active: true, kind: { not: "jet" } },
      select: { code: true, name: true },
      orderBy: { code: "asc" },
      take: 400,
    }),
    shop.read.part.findMany({
      where: { active: true, kind: "jet", family: { not: "" } },
      select: { family: true },
      distinct: ["family"],
      orderBy: { family: "asc" },
      take: 60,
    }),
    shop.read.labourGrade.findMany({ select: { code: true, name: true }, orderBy: { id: "asc" }, take: 50 }),
  ]);
  return { parts, families: jets.map((j) => j.family), grades };
}
