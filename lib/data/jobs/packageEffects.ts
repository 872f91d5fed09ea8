import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { compared, overBikes } from "@/lib/domain/procedures/effects";
import { EFFECT, readEffect } from "./effects";

/** Newest figures that are looked through. */
const MOST = 3000;

/** What a package did on the bikes of this shop, by kind and like conditions, each with the bikes that count. */
export async function countedEffects(
  reads: Pick<ShopReader, "effect"> | Pick<ShopTx, "effect">,
  packageId: number,
) {
  const works = { some: { packageRevision: { packageId } } };
  const rows = await reads.effect.findMany({
    where: {
      withdrawnAt: null,
      job: {
        OR: [
          { revision: { works } },
          { variations: { some: { revisions: { some: { acceptance: { isNot: null }, works } } } } },
        ],
      },
    },
    select: EFFECT,
    orderBy: { id: "desc" },
    take: MOST,
  });
  const bikeOf = new Map(rows.map((row) => [row.jobId, row.bikeId]));
  return overBikes(
    compared(rows.map(readEffect)).map((one) => ({ ...one, bikeId: bikeOf.get(one.jobId) ?? 0 })),
  );
}
