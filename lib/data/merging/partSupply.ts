import type { ShopTx } from "@/lib/db/shop";

/** Suppliers, alternatives and places in kits of the gone part become the kept one's, where it does not have them itself. */
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
  await moveKitsIn(tx, keptId, goneId);
  await moveReplacementsIn(tx, keptId, goneId);

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

/** A kit that has both gets so many of the kept one as it had of the two together. */
async function moveKitsIn(tx: ShopTx, keptId: number, goneId: number): Promise<void> {
  const lines = await tx.kitLine.findMany({
    where: { partId: goneId },
    select: { id: true, kitId: true, quantityMilli: true },
    orderBy: { id: "asc" },
  });
  for (const { id, kitId, quantityMilli } of lines) {
    const own = await tx.kitLine.updateMany({
      where: { kitId, partId: keptId },
      data: { quantityMilli: { increment: quantityMilli } },
    });
    if (own.count === 0)
      await tx.kitLine.update({ where: { id }, data: { partId: keptId }, select: { id: true } });
    else await tx.kitLine.delete({ where: { id }, select: { id: true } });
  }
}

/** What the gone part took the place of the kept one does now; which took its own stands where the kept one has none. */
async function moveReplacementsIn(tx: ShopTx, keptId: number, goneId: number): Promise<void> {
  const parts = await tx.part.findMany({
    where: { id: { in: [keptId, goneId] } },
    select: { id: true, replacedById: true },
    orderBy: { id: "asc" },
  });
  const ends = parts
    .flatMap(({ replacedById }) => replacedById ?? [])
    .filter((id) => id !== keptId && id !== goneId);
  const own = parts.find(({ id }) => id === keptId)?.replacedById ?? null;
  const next = own !== null && own !== goneId ? own : (ends[0] ?? null);
  await tx.part.updateMany({ where: { id: goneId }, data: { replacedById: null } });
  await tx.part.updateMany({
    where: { replacedById: goneId, id: { not: keptId } },
    data: { replacedById: keptId },
  });
  await tx.part.updateMany({ where: { id: keptId }, data: { replacedById: next } });
}
