import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader, ShopTx } from "@/lib/db/shop";

const SHEET = {
  id: true,
  kind: true,
  takenAt: true,
  jobId: true,
  note: true,
  odometerKm: true,
  values: {
    select: { carburettor: true, setting: true, value: true, how: true },
    orderBy: { id: "asc" },
    take: 200,
  },
} satisfies Prisma.SettingSheetSelect;

export type SheetOfJob = Prisma.SettingSheetGetPayload<{ select: typeof SHEET }>;

export interface JobSheets {
  readonly asFound: SheetOfJob | null;
  readonly target: SheetOfJob | null;
  readonly asLeft: SheetOfJob | null;
}

/** The newest sheet of each kind: target and as left of this job; as found of this job, else the bike's newest. */
export async function sheetsOfJob(
  reads: Pick<ShopReader, "settingSheet"> | Pick<ShopTx, "settingSheet">,
  job: { id: number; bikeId: number },
): Promise<JobSheets> {
  const newest = (where: Prisma.SettingSheetWhereInput) =>
    reads.settingSheet.findFirst({
      where: { bikeId: job.bikeId, ...where },
      select: SHEET,
      orderBy: { id: "desc" },
    });
  const [own, known, target, asLeft] = await Promise.all([
    newest({ kind: "asFound", jobId: job.id }),
    newest({ kind: "asFound" }),
    newest({ kind: "target", jobId: job.id }),
    newest({ kind: "asLeft", jobId: job.id }),
  ]);
  return { asFound: own ?? known, target, asLeft };
}

/** What should be fitted now: each value of the target, and of what was found where the target is silent. */
export function wantedValues(sheets: JobSheets): SheetOfJob["values"] {
  const wanted = new Map<string, SheetOfJob["values"][number]>();
  for (const sheet of [sheets.asFound, sheets.target])
    for (const value of sheet?.values ?? []) wanted.set(`${value.carburettor} ${value.setting}`, value);
  return [...wanted.values()];
}
