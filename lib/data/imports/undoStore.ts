import { inTurns } from "@/lib/db/giveWay";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { bikeKey, rekeyBikesIn } from "../bikes/bikeKeys";
import { auditChanges } from "../common/changes";
import { chunks } from "../common/chunks";
import { customerKey } from "../customers/customers";
import { recordMoveIn } from "../stock/moves";
import { partKey } from "./parts";
import type { Changes } from "./types";
import type { Undone } from "./undo";
import type { Standing, Taken } from "./undoCheck";

const WHY = "An import taken back";

/** Takes back what stands of an import, once nothing speaks against it. */
export async function takeBackIn(tx: ShopTx, shop: ShopHandle, stands: Standing): Promise<Undone> {
  const added = <T>(all: readonly Taken<T>[]) => all.filter(({ entry }) => entry.act === "added");
  const changed = <T>(all: readonly Taken<T>[]) => all.filter(({ entry }) => entry.act === "changed");
  for (const some of chunks(stands.known))
    for (const { noun, was } of some)
      await tx.knownKey.deleteMany({ where: { noun, key: String(was?.key) } });

  const bikes = added(stands.bikes).map(({ row }) => row.id);
  for (const some of chunks(bikes)) await tx.bike.deleteMany({ where: { id: { in: some } } });
  await restoreBikes(tx, shop, changed(stands.bikes));
  // A card on which another bike was put since stays.
  for (const some of chunks(stands.cards))
    await tx.modelCard.deleteMany({
      where: { id: { in: some }, bikes: { none: {} }, calibrations: { none: {} } },
    });

  const customers = added(stands.customers).map(({ row }) => row.id);
  for (const some of chunks(customers)) await tx.customer.deleteMany({ where: { id: { in: some } } });
  await restoreCustomers(tx, shop, changed(stands.customers));

  const stocked = stands.parts.filter(({ entry }) => (entry.openedMilli ?? 0) > 0);
  for await (const { entry, row } of inTurns(stocked))
    await recordMoveIn(tx, shop, {
      partId: row.id,
      kind: "count",
      quantityMilli: -(entry.openedMilli ?? 0),
      why: WHY,
    });
  const away = added(stocked).map(({ row }) => row.id);
  for (const some of chunks(away))
    await tx.part.updateMany({
      where: { id: { in: some } },
      data: { active: false, version: { increment: 1 } },
    });
  const parts = added(stands.parts)
    .filter(({ entry }) => !entry.openedMilli)
    .map(({ row }) => row.id);
  for (const some of chunks(parts)) {
    await tx.partBin.deleteMany({ where: { partId: { in: some } } });
    await tx.part.deleteMany({ where: { id: { in: some } } });
  }
  await restoreParts(tx, shop, changed(stands.parts));
  for (const [noun, ids] of Object.entries({ bike: bikes, customer: customers, part: parts }))
    for (const some of chunks(ids)) await tx.knownKey.deleteMany({ where: { noun, nounId: { in: some } } });
  return {
    removed: bikes.length + customers.length + parts.length,
    restored: [stands.bikes, stands.customers, stands.parts].reduce(
      (sum, all) => sum + changed<unknown>(all).length,
      0,
    ),
    putAway: away.length,
  };
}

async function restoreCustomers(tx: ShopTx, shop: ShopHandle, all: Standing["customers"]): Promise<void> {
  for await (const { entry, row } of inTurns(all)) {
    const was = entry.was as Changes;
    await tx.customer.updateMany({
      where: { id: row.id },
      data: { ...was, searchKey: customerKey({ ...row, ...was }), version: { increment: 1 } },
    });
    if ("name" in was) await rekeyBikesIn(tx, { customerId: row.id });
  }
  await auditChanges(tx, shop, "customer", all.map(backwards));
}

async function restoreBikes(tx: ShopTx, shop: ShopHandle, all: Standing["bikes"]): Promise<void> {
  for await (const { entry, row } of inTurns(all)) {
    const was = entry.was as Changes;
    const owner =
      typeof was.customerId === "number"
        ? await tx.customer.findUniqueOrThrow({ where: { id: was.customerId }, select: { name: true } })
        : row.customer;
    await tx.bike.updateMany({
      where: { id: row.id },
      data: {
        ...was,
        searchKey: bikeKey({ ...row, ...was }, row.modelCard, owner),
        version: { increment: 1 },
      },
    });
  }
  await auditChanges(tx, shop, "bike", all.map(backwards));
}

async function restoreParts(tx: ShopTx, shop: ShopHandle, all: Standing["parts"]): Promise<void> {
  for await (const { entry, row } of inTurns(all)) {
    const was = entry.was as Changes;
    if (Object.keys(was).length === 0) continue;
    await tx.part.updateMany({
      where: { id: row.id },
      data: { ...was, searchKey: partKey({ ...row, ...was }), version: { increment: 1 } },
    });
  }
  await auditChanges(
    tx,
    shop,
    "part",
    all.filter(({ entry }) => Object.keys(entry.was ?? {}).length > 0).map(backwards),
  );
}

/** What taking back changes, for the audit trail. */
function backwards({ entry, row }: Taken<{ id: number; version: number }>) {
  const to = entry.was as Changes;
  const now = row as unknown as Readonly<Record<string, Changes[string]>>;
  const from = Object.fromEntries(Object.keys(to).map((key) => [key, now[key] ?? null]));
  return { id: row.id, version: row.version, from, to };
}
