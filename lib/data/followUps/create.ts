import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";

/** Puts a closed job's follow-up in the diary, once: after the shop's days, or its distance from where the bike stood. */
export async function createFollowUpIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const before = await tx.followUp.findFirst({
    where: { jobId },
    select: { id: true },
    orderBy: { id: "asc" },
  });
  if (before) return;
  const settings = await tx.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, followUpDays: true, followUpKm: true },
  });
  if (settings.followUpDays <= 0) return;
  const job = await tx.job.findUniqueOrThrow({
    where: { id: jobId },
    select: { title: true, bikeId: true, odometerKm: true, bike: { select: { odometerKm: true } } },
  });
  const fromKm = job.bike.odometerKm ?? job.odometerKm;
  const { id } = await tx.followUp.create({
    data: {
      bikeId: job.bikeId,
      jobId,
      what: `Ask how it runs after: ${job.title}`,
      dueOn: daysAfter(dayIn(settings.zone, shop.now), settings.followUpDays),
      dueKm: fromKm === null || settings.followUpKm <= 0 ? null : fromKm + settings.followUpKm,
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await audit(tx, shop, "put in the diary", "followUp", id, { jobId });
}
