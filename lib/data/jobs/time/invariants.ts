import type { ShopHandle } from "@/lib/db/shop";

/** What must hold of time entries: one runs for a person at most, and none ends before it starts. */
export async function timeProblems(shop: ShopHandle): Promise<string[]> {
  const [running, backwards] = await Promise.all([
    shop.read.timeEntry.groupBy({ by: ["staffId"], where: { endedAt: null }, _count: { id: true } }),
    shop.read.timeEntry.findMany({
      where: { endedAt: { lt: shop.read.timeEntry.fields.startedAt } },
      select: { id: true },
      orderBy: { id: "asc" },
      take: 20,
    }),
  ]);
  return [
    ...running
      .filter((row) => row._count.id > 1)
      .map((row) => `Person ${row.staffId} has ${row._count.id} time entries running.`),
    ...backwards.map((row) => `Time entry ${row.id} ends before it starts.`),
  ];
}
