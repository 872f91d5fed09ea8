import { demandOne } from "@/lib/db/guard";
import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopReader } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { bikeByPlate } from "../bikes/bikeName";

const MOST_ASKED = 60;

/** Jobs whose customers answered and nobody looked, oldest first, each with its newest answer. */
export async function unseenAnswers(
  { read }: { readonly read: Pick<ShopReader, "runAnswer"> },
  most: number,
) {
  const rows = await read.runAnswer.findMany({
    where: { seenAt: null },
    select: {
      id: true,
      answer: true,
      words: true,
      job: {
        select: {
          id: true,
          number: true,
          customer: { select: { name: true, phone: true } },
          bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
        },
      },
    },
    orderBy: { id: "asc" },
    take: MOST_ASKED,
  });
  const newest = new Map(rows.map((row) => [row.job.id, row]));
  return [...newest.values()].slice(0, most).map(({ job: { bike, ...job }, ...row }) => ({
    ...row,
    job: { ...job, bike: bikeByPlate(bike) },
  }));
}

/** Notes that somebody looked at a job's answers up to one of them; a newer one still waits. */
export async function lookAtAnswers(
  shop: ShopHandle,
  { jobId, upToId }: { jobId: number; upToId: number },
): Promise<void> {
  await shop.write(async (tx) => {
    const data = { seenAt: shop.now, seenBy: shop.by.staffId };
    await demandOne(
      tx.runAnswer.updateMany({ where: { jobId, id: upToId, seenAt: null }, data }),
      () => new Refusal("Somebody looked at this answer already.", "Open the job again.", {}, "conflict"),
    );
    await tx.runAnswer.updateMany({ where: { jobId, id: { lt: upToId }, seenAt: null }, data });
    await audit(tx, shop, "looked at how it runs", "job", jobId, { upToId });
  });
}
