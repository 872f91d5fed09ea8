import type { ShopHandle } from "@/lib/db/shop";
import { DRAWER_SIZE, type DrawerFamily, drawerFamilies, isBelow, maybeBelow } from "./drawer";

/** So many sizes are drawn on a page; a family stays whole unless it has more by itself. */
const SIZES_ON_PAGE = 80;

export interface DrawnFamily extends DrawerFamily {
  /** Of all its sizes, on this page or not, so many are below their point. */
  readonly below: number;
}

/**
 * A page of the drawer: families by name, each with its sizes from the smallest. `after` is the last part of the page before, `family`
 * narrows to one. `next` is the cursor of the following page, null on the last one.
 */
export async function drawerPage(
  shop: ShopHandle,
  asked: { readonly family?: string | undefined; readonly after?: number | undefined },
): Promise<{ families: DrawnFamily[]; next: number | null }> {
  const found = await shop.read.part.findMany({
    where: { family: asked.family ? asked.family : { not: "" }, sizeMilli: { not: null }, active: true },
    select: DRAWER_SIZE,
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }, { id: "asc" }],
    take: SIZES_ON_PAGE + 1,
    ...(asked.after === undefined ? {} : { cursor: { id: asked.after }, skip: 1 }),
  });
  const more = found.length > SIZES_ON_PAGE;
  const page = found.slice(0, SIZES_ON_PAGE);
  const cut = more && found.at(-1)?.family === page.at(-1)?.family ? page.at(-1)?.family : undefined;
  const whole = page.filter((row) => row.family !== cut);
  const rows = whole.length > 0 ? whole : page;
  const families = drawerFamilies(rows);
  const below = await belowIn(
    shop,
    families.map(({ family }) => family),
  );
  return {
    families: families.map((one) => ({ ...one, below: below.get(one.family) ?? 0 })),
    next: more ? (rows.at(-1)?.id ?? null) : null,
  };
}

/** How many sizes of each family are below their point. */
async function belowIn(shop: ShopHandle, families: readonly string[]): Promise<Map<string, number>> {
  const rows = await shop.read.part.findMany({
    where: { ...maybeBelow(shop), family: { in: [...families] }, sizeMilli: { not: null } },
    select: { family: true, onHandMilli: true, reservedMilli: true, pointMilli: true },
    orderBy: { id: "asc" },
    take: 2000,
  });
  const counts = new Map<string, number>();
  for (const row of rows) if (isBelow(row)) counts.set(row.family, (counts.get(row.family) ?? 0) + 1);
  return counts;
}

/** Names of the families that have sizes in the drawer. */
export async function listDrawerNames(shop: ShopHandle): Promise<string[]> {
  const rows = await shop.read.part.groupBy({
    by: ["family"],
    where: { family: { not: "" }, sizeMilli: { not: null }, active: true },
    orderBy: { family: "asc" },
    take: 500,
  });
  return rows.map((row) => row.family);
}
