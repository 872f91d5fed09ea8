import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { fetched } from "./chunks";

/** Codes of parts that were merged, with the part that is kept: recipes go on naming them. */
export async function mergedCodes(
  reads: Pick<ShopReader | ShopTx, "knownKey">,
  codes: readonly string[],
): Promise<Map<string, number>> {
  const rows = await fetched(codes, (some) =>
    reads.knownKey.findMany({
      where: { noun: "part", key: { in: some } },
      select: { key: true, nounId: true },
      orderBy: { key: "asc" },
    }),
  );
  return new Map(rows.map((row) => [row.key, row.nounId]));
}

/** Parts under the codes a recipe names them by: one that is kept also under those of its doubles, which are put away. */
export function underRecipeCodes<
  T extends { readonly id: number; readonly code: string; readonly active: boolean },
>(rows: readonly T[], merged: ReadonlyMap<string, number>): T[] {
  const inUse = new Set(rows.filter((row) => row.active).map((row) => row.code));
  const led = [...merged].flatMap(([code, id]) => {
    const kept = inUse.has(code) ? undefined : rows.find((row) => row.id === id);
    return kept ? [{ ...kept, code }] : [];
  });
  const codes = new Set(led.map((row) => row.code));
  return [...rows.filter((row) => !codes.has(row.code)), ...led];
}
