import type { ShopHandle } from "@/lib/db/shop";
import { amountOf } from "@/lib/domain/money/scale";
import type { DayRange } from "@/lib/domain/schedule/ranges";
import { fetched } from "../common/chunks";
import { packagesOf } from "./packagesOf";

/** So many jobs are looked through, the newest first. */
const MOST = 3_000;

export interface PackageJob {
  readonly id: number;
  readonly number: string;
  readonly title: string;
  /** Names of its packages, or what it stands on without one. */
  readonly packages: string;
  /** Billed in the range, credits taken off. */
  readonly netMinor: number;
  /** What was taken from stock for it, at what it cost. */
  readonly partsMinor: number;
  readonly plannedMinutes: number;
  readonly tookMinutes: number;
  readonly rides: number;
  readonly comebacks: number;
}

export type PackageSum = Omit<PackageJob, "id" | "number" | "title"> & { readonly jobs: number };

/** Jobs that were billed in a range with what they took, and sums by package. `cut`: there are more than are counted. */
export async function packageJobsIn(shop: ShopHandle, range: DayRange) {
  const [billed, { currency }] = await Promise.all([
    shop.read.documentShare.groupBy({
      by: ["job"],
      where: { issuedOn: { gte: range.from, lte: range.to }, job: { not: "" } },
      _sum: { netMinor: true },
      orderBy: { job: "desc" },
      take: MOST,
    }),
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { currency: true } }),
  ]);
  const nets = new Map(billed.map((row) => [row.job, row._sum.netMinor ?? 0]));
  const jobs = await fetched([...nets.keys()], (numbers) =>
    shop.read.job.findMany({ where: { number: { in: numbers } }, select: JOB, orderBy: { id: "desc" } }),
  );
  const ids = jobs.map((job) => job.id);
  const [took, parts, rides, comebacks] = await Promise.all([
    tookOf(shop, ids),
    partsOf(shop, ids, currency),
    countOf(ids, (some) =>
      shop.read.testRide.findMany({
        where: { jobId: { in: some } },
        select: { jobId: true },
        orderBy: { id: "asc" },
      }),
    ),
    comebacksOf(shop, ids),
  ]);
  const rows = jobs.map(({ revision, minutes, ...job }): PackageJob => {
    return {
      ...job,
      packages: packagesOf(revision.works),
      netMinor: nets.get(job.number) ?? 0,
      partsMinor: parts.get(job.id) ?? 0,
      plannedMinutes: minutes,
      tookMinutes: Math.round(took.get(job.id) ?? 0),
      rides: rides.get(job.id) ?? 0,
      comebacks: comebacks.get(job.id) ?? 0,
    };
  });
  return { rows, packages: byPackage(rows), cut: billed.length >= MOST };
}

/** Sums of jobs by package, the most billed first. */
function byPackage(rows: readonly PackageJob[]): PackageSum[] {
  return [...Map.groupBy(rows, (row) => row.packages)]
    .map(([packages, own]) => {
      const sum = (of: Exclude<keyof PackageSum, "packages" | "jobs">) =>
        own.reduce((total, row) => total + row[of], 0);
      return {
        packages,
        jobs: own.length,
        netMinor: sum("netMinor"),
        partsMinor: sum("partsMinor"),
        plannedMinutes: sum("plannedMinutes"),
        tookMinutes: sum("tookMinutes"),
        rides: sum("rides"),
        comebacks: sum("comebacks"),
      };
    })
    .sort((a, b) => b.netMinor - a.netMinor || (a.packages < b.packages ? -1 : 1));
}

const JOB = {
  id: true,
  number: true,
  title: true,
  minutes: true,
  revision: {
    select: {
      works: {
        select: { packageRevision: { select: { package: { select: { name: true } } } } },
        orderBy: { position: "asc" },
        take: 20,
      },
    },
  },
} as const;

async function tookOf(shop: ShopHandle, ids: readonly number[]): Promise<Map<number, number>> {
  const rows = await fetched(ids, (some) =>
    shop.read.timeEntry.findMany({
      where: { jobId: { in: some }, endedAt: { not: null } },
      select: { jobId: true, startedAt: true, endedAt: true },
      orderBy: { id: "asc" },
    }),
  );
  return summed(
    rows.map((row) => [row.jobId, ((row.endedAt?.getTime() ?? 0) - row.startedAt.getTime()) / 60_000]),
  );
}

/** In minor units, each move rounded. A move out is below zero: what it costs is not. */
async function partsOf(
  shop: ShopHandle,
  ids: readonly number[],
  currency: string,
): Promise<Map<number, number>> {
  const rows = await fetched(ids, (some) =>
    shop.read.move.findMany({
      where: { jobId: { in: some }, kind: { in: ["use", "returnToStock"] } },
      select: { jobId: true, quantityMilli: true, unitCostE4: true },
      orderBy: { id: "asc" },
    }),
  );
  return summed(
    rows.map(({ jobId, quantityMilli, unitCostE4 }) => [
      jobId ?? 0,
      0 - amountOf(unitCostE4 ?? 0, quantityMilli, currency),
    ]),
  );
}

async function countOf(
  ids: readonly number[],
  read: (some: number[]) => Promise<readonly { readonly jobId: number }[]>,
): Promise<Map<number, number>> {
  const rows = await fetched(ids, (some) => read(some) as Promise<{ jobId: number }[]>);
  return summed(rows.map((row) => [row.jobId, 1]));
}

function comebacksOf(shop: ShopHandle, ids: readonly number[]): Promise<Map<number, number>> {
  return countOf(ids, async (some) =>
    (
      await shop.read.jobAgreement.findMany({
        where: { kind: "comeback", comebackOfId: { in: some } },
        select: { comebackOfId: true },
        orderBy: { jobId: "asc" },
      })
    ).map((row) => ({ jobId: row.comebackOfId ?? 0 })),
  );
}

function summed(rows: readonly (readonly [id: number, value: number])[]): Map<number, number> {
  const sums = new Map<number, number>();
  for (const [id, value] of rows) sums.set(id, (sums.get(id) ?? 0) + value);
  return sums;
}
