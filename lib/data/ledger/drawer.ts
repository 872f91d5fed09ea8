import type { ShopHandle } from "@/lib/db/shop";
import type { DrawerChanged } from "@/lib/domain/ledger/events";
import type { LedgerRange } from "@/lib/domain/ledger/trial";

const PAGE = 500;

/**
 * The drawer in a range of days: what each count found over or short and what left the drawer with it, and what was put in or taken out
 * between. The payments themselves are events of their own.
 */
export async function drawerIn(shop: ShopHandle, days: LedgerRange): Promise<DrawerChanged[]> {
  return (await Promise.all([countsIn(shop, days), movesIn(shop, days)])).flat();
}

async function countsIn(shop: ShopHandle, { from, to }: LedgerRange): Promise<DrawerChanged[]> {
  const found: DrawerChanged[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.endOfDay.findMany({
      where: { id: { gt: after }, day: { gte: from, lte: to } },
      select: { id: true, day: true, countedMinor: true, differenceMinor: true, leftMinor: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { id, day, countedMinor, differenceMinor, leftMinor } of rows)
      found.push({
        is: "drawer",
        what: "count",
        id,
        day,
        source: { noun: "endOfDay", id },
        customer: null,
        differenceMinor,
        movedMinor: leftMinor - countedMinor,
        reason: "Drawer counted; what does not stay in it leaves it",
      });
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return found;
    after = last.id;
  }
}

async function movesIn(shop: ShopHandle, { from, to }: LedgerRange): Promise<DrawerChanged[]> {
  const found: DrawerChanged[] = [];
  for (let after = 0; ; ) {
    const rows = await shop.read.drawerMove.findMany({
      where: { id: { gt: after }, day: { gte: from, lte: to } },
      select: { id: true, day: true, amountMinor: true, reason: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { amountMinor, ...row } of rows)
      found.push({
        ...row,
        is: "drawer",
        what: "move",
        source: { noun: "endOfDay", id: 0 },
        customer: null,
        differenceMinor: 0,
        movedMinor: amountMinor,
      });
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return found;
    after = last.id;
  }
}
