import type { ShopHandle } from "@/lib/db/shop";
import { type Changed, madeOf } from "@/lib/domain/sheets/changed";
import type { RecallFilter } from "@/lib/schemas/recall";

/** Newest sheets that are looked through. */
const SHEETS = 300;
const PACKAGES = 12;

/** The package is among the works of a job, or of extra work that was agreed on it. */
const withPackage = (packageId: number) => {
  const works = { some: { packageRevision: { packageId } } };
  return {
    OR: [
      { revision: { works } },
      { variations: { some: { revisions: { some: { acceptance: { isNot: null }, works } } } } },
    ],
  };
};

/** Ids of the newest as-left sheet of each of the last bikes of a bike's model, of those that the filter lets through. */
export async function newestSheets(
  shop: ShopHandle,
  bikeId: number,
  most: number,
  filter?: RecallFilter,
): Promise<number[]> {
  const rows = await shop.read.settingSheet.findMany({
    where: {
      kind: "asLeft",
      bikeId: { not: bikeId },
      bike: { modelCard: { bikes: { some: { id: bikeId } } } },
      job: filter && "packageId" in filter ? withPackage(filter.packageId) : { isNot: null },
    },
    select: { id: true, bikeId: true, jobId: true },
    orderBy: { id: "desc" },
    take: SHEETS,
  });
  const kept = filter && "changed" in filter ? await changedIn(shop, rows, filter.changed) : rows;
  const newest = [...Map.groupBy(kept, (row) => row.bikeId).values()].flatMap(([row]) => row?.id ?? []);
  return newest.slice(0, most);
}

/** Those of these sheets whose job has a step that was done and made the change. */
async function changedIn<T extends { readonly jobId: number | null }>(
  shop: ShopHandle,
  sheets: readonly T[],
  changed: Changed,
): Promise<T[]> {
  const steps = await shop.read.step.findMany({
    where: {
      jobId: { in: sheets.flatMap((row) => row.jobId ?? []) },
      kind: "operation",
      state: "done",
    },
    select: { jobId: true, makes: true },
    orderBy: { id: "asc" },
    take: SHEETS * 40,
  });
  const jobs = new Set(
    steps.filter((step) => madeOf(changed, step.makes as string[])).map((step) => step.jobId),
  );
  return sheets.filter((row) => row.jobId !== null && jobs.has(row.jobId));
}

/** Packages that were done on other bikes of a bike's model, by name. */
export async function packagesLike(
  shop: ShopHandle,
  bikeId: number,
): Promise<{ id: number; name: string }[]> {
  const job = { bikeId: { not: bikeId }, bike: { modelCard: { bikes: { some: { id: bikeId } } } } };
  return shop.read.package.findMany({
    where: { revisions: { some: { works: { some: { revision: { job } } } } } },
    select: { id: true, name: true },
    orderBy: [{ name: "asc" }, { id: "asc" }],
    take: PACKAGES,
  });
}
