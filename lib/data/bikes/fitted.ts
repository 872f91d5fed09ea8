import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopReader, ShopTx } from "@/lib/db/shop";
import { newestOfEach } from "@/lib/domain/sheets/fitted";

/** How far back a setting is looked for that newer sheets leave out. */
const SHEETS = 20;

const SELECT = {
  id: true,
  kind: true,
  takenAt: true,
  jobId: true,
  note: true,
  odometerKm: true,
  conditions: true,
  values: {
    select: { carburettor: true, setting: true, value: true, how: true },
    orderBy: { id: "asc" },
    take: 200,
  },
} as const satisfies Prisma.SettingSheetSelect;

export type FittedSheet = Prisma.SettingSheetGetPayload<{ select: typeof SELECT }>;

type Reads = Pick<ShopReader, "settingSheet"> | Pick<ShopTx, "settingSheet">;

/**
 * What is fitted on a bike as its sheets tell: the newest as-found or as-left sheet, with each setting that it leaves out at the
 * value of the newest older sheet that has it. A target is what should be fitted, and tells nothing. Null where no sheet tells.
 */
export async function fittedOn(
  reads: Reads,
  bikeId: number,
  where: Prisma.SettingSheetWhereInput = {},
): Promise<FittedSheet | null> {
  const sheets = await reads.settingSheet.findMany({
    where: { AND: [{ bikeId, kind: { in: ["asFound", "asLeft"] } }, where] },
    select: SELECT,
    orderBy: { id: "desc" },
    take: SHEETS,
  });
  const [newest] = sheets;
  return newest ? { ...newest, values: newestOfEach(sheets) } : null;
}
