import type { ShopHandle } from "@/lib/db/shop";
import { Differences } from "./sums";

/** A moment as the day on the shop's clock. */
export function localDay(at: Date | null, zone: string): string {
  if (at === null) return "";
  const parts = new Intl.DateTimeFormat("en-CA", {
    timeZone: zone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
  });
  return parts.format(at);
}

/** The newest value of each setting of a bike, by "carburettor setting", out of its as-found and as-left sheets. */
export async function fittedBefore(
  shop: ShopHandle,
  bikeId: number,
  { notJob, beforeSheet }: { notJob?: number; beforeSheet?: number },
): Promise<Map<string, number>> {
  const sheets = await shop.read.settingSheet.findMany({
    where: { bikeId, kind: { in: ["asFound", "asLeft"] } },
    include: { values: true },
    orderBy: { id: "desc" },
  });
  const values = new Map<string, number>();
  for (const sheet of sheets) {
    if (notJob !== undefined && sheet.jobId === notJob) continue;
    if (beforeSheet !== undefined && sheet.id >= beforeSheet) continue;
    for (const { carburettor, setting, value } of sheet.values) {
      const place = `${carburettor} ${setting}`;
      if (!values.has(place)) values.set(place, value);
    }
  }
  return values;
}

export interface SheetText {
  readonly job: string | null;
  readonly odometerKm: number | null;
  readonly day: string;
  readonly customer: string;
  readonly plate: string;
  readonly values: readonly {
    readonly carburettor: number;
    readonly setting: string;
    readonly value: number;
  }[];
}

/**
 * Whether a job's as-left sheet says what its rows tell: what was read on its card, else what a step made of the target, else
 * what was fitted before; and whether its jet is the one that last left the drawer for this job. `typed` is what the tuner
 * entered that no row could tell.
 */
export async function readAsLeft(
  shop: ShopHandle,
  jobId: number,
  paper: SheetText,
  typed: { readonly odometerKm: number | null; readonly idleSpeedRpm: number },
): Promise<string[]> {
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    include: {
      customer: true,
      bike: true,
      steps: {
        orderBy: { position: "asc" },
        include: { holdPoints: { include: { readings: { orderBy: { id: "asc" } } } } },
      },
    },
  });
  const { zone } = await shop.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  const left = await shop.read.settingSheet.findFirstOrThrow({
    where: { jobId, kind: "asLeft" },
    include: { values: true },
    orderBy: { id: "desc" },
  });
  const target = await shop.read.settingSheet.findFirst({
    where: { jobId, kind: "target" },
    include: { values: true },
    orderBy: { id: "desc" },
  });
  const diff = new Differences(`As-left sheet of job ${job.number}`);
  diff.same("the job", paper.job, job.number);
  diff.same("the customer", [paper.customer, paper.plate], [job.customer.name, job.bike.plate]);
  diff.same("the day", paper.day, localDay(job.finishedAt, zone));
  diff.same("the odometer", paper.odometerKm, typed.odometerKm);

  const told = await fittedBefore(shop, job.bikeId, { notJob: jobId, beforeSheet: left.id });
  const made = new Set(
    job.steps.filter((step) => step.state !== "skipped").flatMap((step) => step.makes as string[]),
  );
  for (const { carburettor, setting, value } of target?.values ?? [])
    if (made.has(setting)) told.set(`${carburettor} ${setting}`, value);
  for (const step of job.steps)
    for (const hold of step.holdPoints) {
      const value = hold.readings.at(-1)?.value ?? null;
      if (hold.measures !== "" && value !== null)
        told.set(`${hold.carburettor ?? 1} ${hold.measures}`, value);
    }
  told.set("1 idleSpeedRpm", typed.idleSpeedRpm);
  const printed = new Map(paper.values.map((one) => [`${one.carburettor} ${one.setting}`, one.value]));
  for (const place of new Set([...printed.keys(), ...told.keys()]))
    diff.same(place, printed.get(place) ?? null, told.get(place) ?? null);

  const [jet] = await shop.read.move.findMany({
    where: { jobId, kind: "use", part: { kind: "jet" } },
    include: { part: true },
    orderBy: { id: "desc" },
    take: 1,
  });
  if (jet)
    diff.same("the jet that left the drawer", printed.get("1 mainJet"), (jet.part.sizeMilli ?? 0) / 1_000);
  return diff.found;
}
