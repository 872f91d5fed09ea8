import { audit } from "@/lib/db/record";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { together } from "@/lib/domain/library/recheck";
import type { Recheck } from "@/lib/domain/packages/recipe";
import { dayIn, daysAfter } from "@/lib/domain/schedule/days";
import { intervalFor, type Severity, severityWords } from "@/lib/domain/tuning/severity";

const SEVERITY = { select: { name: true, factor: true } } as const;

/** The odometer at which a follow-up is due, sooner as the bike's use says; none without an odometer or a distance. */
function dueAfter(fromKm: number | null, km: number, severity: Severity | null) {
  if (fromKm === null || km <= 0) return { dueKm: null };
  return { dueKm: Math.round(fromKm) + intervalFor(km, severity).km, kmWhy: severityWords(severity) };
}

/** Puts a closed job's follow-up in the diary, once: after the shop's days, or its distance from where the bike stood. */
export async function createFollowUpIn(tx: ShopTx, shop: ShopHandle, jobId: number): Promise<void> {
  const before = await tx.followUp.findFirst({
    where: { jobId, recheck: false },
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
    select: {
      title: true,
      bikeId: true,
      odometerKm: true,
      bike: { select: { odometerKm: true, severity: SEVERITY } },
    },
  });
  const fromKm = job.bike.odometerKm ?? job.odometerKm;
  const { id } = await tx.followUp.create({
    data: {
      bikeId: job.bikeId,
      jobId,
      what: `Ask how it runs after: ${job.title}`,
      dueOn: daysAfter(dayIn(settings.zone, shop.now), settings.followUpDays),
      ...dueAfter(fromKm, settings.followUpKm, job.bike.severity),
      createdAt: shop.now,
    },
    select: { id: true },
  });
  await audit(tx, shop, "put in the diary", "followUp", id, { jobId });
}

/** How a follow-up says that something was hot and cold, before what it is. */
export const RECHECK = "Look at again, it has been hot and cold: ";

/** Puts what is to be looked at again after heat cycles in the diary: one follow-up for each distance and time, each once. */
export async function createRechecksIn(
  tx: ShopTx,
  shop: ShopHandle,
  job: { id: number; bikeId: number },
  rechecks: readonly Recheck[],
  fromKm: number | null,
): Promise<void> {
  if (rechecks.length === 0) return;
  const settings = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const today = dayIn(settings.zone, shop.now);
  const { severity } = await tx.bike.findUniqueOrThrow({
    where: { id: job.bikeId },
    select: { severity: SEVERITY },
  });
  for (const { what, km, days } of together(rechecks)) {
    const words = `${RECHECK}${what}`;
    const before = await tx.followUp.findFirst({
      where: { jobId: job.id, recheck: true, what: words },
      select: { id: true },
      orderBy: { id: "asc" },
    });
    if (before) continue;
    const { id } = await tx.followUp.create({
      data: {
        bikeId: job.bikeId,
        jobId: job.id,
        what: words,
        recheck: true,
        dueOn: daysAfter(today, days),
        ...dueAfter(fromKm, km, severity),
        createdAt: shop.now,
      },
      select: { id: true },
    });
    await audit(tx, shop, "put in the diary", "followUp", id, { jobId: job.id });
  }
}
