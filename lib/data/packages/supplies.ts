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

/** Names of the accesses that the newest packages know, each once: to choose from while typing, so they are not checked here. */
export async function accessNames(shop: ShopHandle): Promise<string[]> {
  const packages = await shop.read.package.findMany({
    where: { active: true },
    select: {
      revisions: {
        where: { state: "published" },
        select: { recipe: true },
        orderBy: { number: "desc" },
        take: 1,
      },
    },
    orderBy: { id: "desc" },
    take: 20,
  });
  const names = packages
    .flatMap(({ revisions }) => revisions.map((one) => one.recipe as { accesses?: { name?: string }[] }))
    .flatMap((recipe) => (recipe.accesses ?? []).map((access) => access.name ?? ""));
  return [...new Set(names.filter(Boolean))].sort();
}
