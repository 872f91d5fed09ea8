import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";

/** One size of a family as the drawer shows it and as a quote sees it. */
export interface DrawerSize {
  partId: number;
  code: string;
  name: string;
  sizeMilli: number;
  convention: string;
  onHandMilli: number;
  reservedMilli: number;
  freeMilli: number;
  onOrderMilli: number;
  pointMilli: number;
  below: boolean;
}

export interface DrawerFamily {
  family: string;
  kind: string;
  sizes: DrawerSize[];
}

/** What is drawn of a size. */
export const DRAWER_SIZE = {
  id: true,
  code: true,
  name: true,
  kind: true,
  family: true,
  sizeMilli: true,
  convention: true,
  onHandMilli: true,
  reservedMilli: true,
  onOrderMilli: true,
  pointMilli: true,
} satisfies Prisma.PartSelect;

type Row = Prisma.PartGetPayload<{ select: typeof DRAWER_SIZE }>;

/** True when what is free of a part has fallen below its point. */
export const isBelow = (part: { onHandMilli: number; reservedMilli: number; pointMilli: number }): boolean =>
  part.pointMilli > 0 && part.onHandMilli - part.reservedMilli < part.pointMilli;

function sizeOf(row: Row): DrawerSize {
  return {
    partId: row.id,
    code: row.code,
    name: row.name,
    sizeMilli: row.sizeMilli ?? 0,
    convention: row.convention,
    onHandMilli: row.onHandMilli,
    reservedMilli: row.reservedMilli,
    freeMilli: row.onHandMilli - row.reservedMilli,
    onOrderMilli: row.onOrderMilli,
    pointMilli: row.pointMilli,
    below: isBelow(row),
  };
}

/** Every size of one family, smallest first. */
export async function drawer(shop: ShopHandle, family: string): Promise<DrawerSize[]> {
  const rows = await shop.read.part.findMany({
    where: { family, sizeMilli: { not: null }, active: true },
    select: DRAWER_SIZE,
    orderBy: { sizeMilli: "asc" },
    take: 400,
  });
  return rows.map(sizeOf);
}

/** All families with their sizes, in one query. */
export async function listDrawer(shop: ShopHandle): Promise<DrawerFamily[]> {
  const rows = await shop.read.part.findMany({
    where: { family: { not: "" }, sizeMilli: { not: null }, active: true },
    select: DRAWER_SIZE,
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }],
    take: 2000,
  });
  return drawerFamilies(rows);
}

/** Parts as the families they are of, in the order they come. */
export function drawerFamilies(rows: readonly Row[]): DrawerFamily[] {
  const families = new Map<string, DrawerFamily>();
  for (const row of rows) {
    const family = families.get(row.family) ?? { family: row.family, kind: row.kind, sizes: [] };
    family.sizes.push(sizeOf(row));
    families.set(row.family, family);
  }
  return [...families.values()];
}

/**
 * The sizes of a family nearest to a wanted one, nearest first; of two equally near the larger (richer) comes
 * first. They may be out of stock: look at freeMilli.
 */
export async function nearestInDrawer(
  shop: ShopHandle,
  family: string,
  sizeMilli: number,
  take = 6,
): Promise<DrawerSize[]> {
  const where = { family, active: true };
  const [up, down] = await Promise.all([
    shop.read.part.findMany({
      where: { ...where, sizeMilli: { gte: sizeMilli } },
      select: DRAWER_SIZE,
      orderBy: { sizeMilli: "asc" },
      take,
    }),
    shop.read.part.findMany({
      where: { ...where, sizeMilli: { lt: sizeMilli } },
      select: DRAWER_SIZE,
      orderBy: { sizeMilli: "desc" },
      take,
    }),
  ]);
  const away = (size: DrawerSize) => Math.abs(size.sizeMilli - sizeMilli);
  return [...up, ...down]
    .map(sizeOf)
    .sort((a, b) => away(a) - away(b) || b.sizeMilli - a.sizeMilli)
    .slice(0, take);
}

export interface PartForQuote {
  id: number;
  code: string;
  name: string;
  kind: string;
  unit: string;
  family: string;
  sizeMilli: number | null;
  /** What one unit costs the shop, E4: its moving average, else its list cost; null when unknown. */
  unitCostE4: number | null;
  unitPriceE4: number | null;
  onHandMilli: number;
  freeMilli: number;
  onOrderMilli: number;
  leadDays: number | null;
}

/** Parts by their codes, for quotes and packages; codes that do not exist are not among the answers. */
export async function partsByCode(shop: ShopHandle, codes: readonly string[]): Promise<PartForQuote[]> {
  const rows = await shop.read.part.findMany({
    where: { code: { in: [...new Set(codes)] } },
    select: {
      id: true,
      code: true,
      name: true,
      kind: true,
      unit: true,
      family: true,
      sizeMilli: true,
      costE4: true,
      averageE4: true,
      priceE4: true,
      onHandMilli: true,
      reservedMilli: true,
      onOrderMilli: true,
      leadDays: true,
    },
    orderBy: { code: "asc" },
  });
  return rows.map(({ costE4, averageE4, priceE4, reservedMilli, ...part }) => ({
    ...part,
    unitCostE4: averageE4 ?? costE4,
    unitPriceE4: priceE4,
    freeMilli: part.onHandMilli - reservedMilli,
  }));
}

/** Parts among which all are that are below their point: only a reserved one can be so with more than that on hand. */
export const maybeBelow = (shop: ShopHandle) =>
  ({
    active: true,
    pointMilli: { gt: 0 },
    OR: [{ onHandMilli: { lt: shop.read.part.fields.pointMilli } }, { reservedMilli: { gt: 0 } }],
  }) satisfies Prisma.PartWhereInput;

/** Parts whose free stock is below their point; those not yet on order come first. */
export async function belowPoint(shop: ShopHandle, take: number) {
  const rows = await shop.read.part.findMany({
    where: maybeBelow(shop),
    select: { ...DRAWER_SIZE, unit: true, leadDays: true, supplier: true },
    // In no order: sorted by code, the database would walk every part in that order.
  });
  const covered = (row: (typeof rows)[number]) =>
    row.onHandMilli - row.reservedMilli + row.onOrderMilli >= row.pointMilli ? 1 : 0;
  return rows
    .filter(isBelow)
    .sort((a, b) => covered(a) - covered(b) || (a.code < b.code ? -1 : 1))
    .slice(0, take)
    .map((row) => ({ ...row, freeMilli: row.onHandMilli - row.reservedMilli, covered: covered(row) === 1 }));
}
