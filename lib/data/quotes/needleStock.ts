import type { ShopTx } from "@/lib/db/shop";
import type { Recipe } from "@/lib/domain/packages/recipe";
import { SHIM_FAMILY } from "@/lib/domain/stock/shims";
import type { ShimOnHand } from "@/lib/domain/tuning/needlePosition";
import type { NeedleRecord } from "@/lib/domain/tuning/needleRecord";
import { storedNeedle } from "../stock/needles";

type Reads = Pick<ShopTx, "part">;

/** Needle shims that are free in the drawer, thinnest first. */
export async function shimsOnHand(db: Reads): Promise<ShimOnHand[]> {
  const rows = await db.part.findMany({
    where: { family: SHIM_FAMILY, active: true, sizeMilli: { gt: 0 } },
    select: { sizeMilli: true, onHandMilli: true, reservedMilli: true },
    orderBy: { sizeMilli: "asc" },
    take: 40,
  });
  return rows.map((row) => ({
    sizeMm: (row.sizeMilli ?? 0) / 1000,
    free: Math.max(0, Math.floor((row.onHandMilli - row.reservedMilli) / 1000)),
  }));
}

/** Needles that a recipe's options fit, by code, where somebody measured them. */
export async function needleParts(db: Reads, recipe: Recipe): Promise<Record<string, NeedleRecord>> {
  const codes = recipe.options.flatMap((o) => (o.needle?.kind === "exchange" ? [o.needle.code] : []));
  if (codes.length === 0) return {};
  const rows = await db.part.findMany({
    where: { code: { in: codes } },
    select: { code: true, facts: true },
    orderBy: { code: "asc" },
    take: 60,
  });
  return Object.fromEntries(
    rows.flatMap(({ code, facts }) => {
      const needle = storedNeedle(facts);
      return needle ? [[code, needle]] : [];
    }),
  );
}
