import type { ShopReader, ShopTx } from "@/lib/db/shop";

/** The steps of a job with what each makes, in their order. */
export function makersOf(reads: Pick<ShopReader, "step"> | Pick<ShopTx, "step">, jobId: number) {
  return reads.step.findMany({
    where: { jobId },
    select: { makes: true, state: true },
    orderBy: { position: "asc" },
    take: 500,
  });
}
