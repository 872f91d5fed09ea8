import type { ShopHandle } from "@/lib/db/shop";

const RUN = {
  id: true,
  at: true,
  noun: true,
  fileName: true,
  rows: true,
  added: true,
  changed: true,
  undoneAt: true,
} as const;

/** The newest imports. */
export async function listImports(shop: ShopHandle) {
  return shop.read.importRun.findMany({
    select: RUN,
    orderBy: { id: "desc" },
    take: 20,
  });
}

/** One import; null when there is none. */
export async function getImport(shop: ShopHandle, id: number) {
  const run = await shop.read.importRun.findUnique({
    where: { id },
    select: { ...RUN, staffId: true, undoneBy: true },
  });
  if (!run) return null;
  const [entry, staff] = await Promise.all([
    shop.read.importEntry.findFirst({ where: { runId: id }, select: { id: true }, orderBy: { id: "asc" } }),
    run.staffId === null
      ? null
      : shop.read.staff.findUnique({ where: { id: run.staffId }, select: { name: true } }),
  ]);
  return { ...run, by: staff?.name ?? "", canBeTakenBack: entry !== null && run.undoneAt === null };
}
