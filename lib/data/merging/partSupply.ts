import type { ShopTx } from "@/lib/db/shop";

/** Suppliers and alternatives of the gone part become the kept one's, where it does not have them itself. */
export async function moveSupplyIn(tx: ShopTx, keptId: number, goneId: number): Promise<void> {
  const own = await tx.partSupplier.findMany({
    where: { partId: keptId },
    select: { supplierId: true, usual: true },
    orderBy: { id: "asc" },
  });
  await tx.partSupplier.updateMany({
    where: { partId: goneId, supplierId: { notIn: own.map((row) => row.supplierId) } },
    data: { partId: keptId, ...(own.some((row) => row.usual) ? { usual: false } : {}) },
  });
  await tx.partSupplier.deleteMany({ where: { partId: goneId } });

  const rows = await tx.partSubstitute.findMany({
    where: {
      OR: [{ partId: { in: [keptId, goneId] } }, { otherId: { in: [keptId, goneId] } }],
    },
    select: { id: true, partId: true, otherId: true },
    orderBy: { id: "asc" },
  });
  const led = (id: number) => (id === goneId ? keptId : id);
  const seen = new Set<string>();
  // Those of the kept one first, so that they stay.
  for (const row of rows.sort((a, b) => Number(touches(a)) - Number(touches(b)))) {
    const to = { partId: led(row.partId), otherId: led(row.otherId) };
    const key = `${to.partId} ${to.otherId}`;
    if (to.partId === to.otherId || seen.has(key))
      await tx.partSubstitute.delete({ where: { id: row.id }, select: { id: true } });
    else if (touches(row))
      await tx.partSubstitute.update({ where: { id: row.id }, data: to, select: { id: true } });
    seen.add(key);
  }
  function touches(row: { partId: number; otherId: number }): boolean {
    return row.partId === goneId || row.otherId === goneId;
  }
}
