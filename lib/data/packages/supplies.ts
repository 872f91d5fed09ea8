import type { ShopHandle } from "@/lib/db/shop";

/** The grades that a recipe may name. */
export async function gradesToName(
  shop: ShopHandle,
): Promise<readonly { readonly code: string; readonly name: string }[]> {
  return shop.read.labourGrade.findMany({
    select: { code: true, name: true },
    orderBy: { id: "asc" },
    take: 50,
  });
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
