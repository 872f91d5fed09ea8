import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { openOf } from "@/lib/domain/stock/orders";
import { chunks } from "../common/chunks";
import { lyingIn } from "../stock/lying";
import { recordMoveIn } from "../stock/moves";
import { fillShortagesIn } from "../stock/shortages";

interface Stocked {
  readonly id: number;
  readonly code: string;
  readonly reservedMilli: number;
  readonly onOrderMilli: number;
}

interface Line {
  readonly id: number;
  readonly quantityMilli: number;
  readonly receivedMilli: number;
  readonly cancelledMilli: number;
}

/** What lies of the gone part, is reserved of it and is on order goes over to the kept one; no job loses what it holds. */
export async function moveStockIn(
  tx: ShopTx,
  shop: ShopHandle,
  kept: Stocked,
  gone: Stocked,
  lines: readonly Line[],
): Promise<void> {
  const open = lines.filter((line) => openOf(line) > 0).map((line) => line.id);
  for (const some of chunks(open))
    await tx.orderLine.updateMany({ where: { id: { in: some } }, data: { partId: kept.id } });
  const { reservedMilli, onOrderMilli } = gone;
  await tx.part.update({
    where: { id: gone.id },
    data: { reservedMilli: 0, onOrderMilli: 0 },
    select: { id: true },
  });
  await tx.part.update({
    where: { id: kept.id },
    data: { onOrderMilli: { increment: onOrderMilli } },
    select: { id: true },
  });
  for (const { bin, onHandMilli } of await lyingIn(tx, gone.id)) {
    const out = await recordMoveIn(tx, shop, {
      partId: gone.id,
      kind: "split",
      quantityMilli: -onHandMilli,
      bin,
      why: `merged into ${kept.code}`,
    });
    const { unitCostE4 } = await tx.move.findUniqueOrThrow({
      where: { id: out.moveId },
      select: { unitCostE4: true },
    });
    await recordMoveIn(tx, shop, {
      partId: kept.id,
      kind: "split",
      quantityMilli: onHandMilli,
      bin,
      unitCostE4,
      why: `merged from ${gone.code}`,
      passesThrough: true,
    });
  }
  await tx.part.update({
    where: { id: kept.id },
    data: { reservedMilli: { increment: reservedMilli } },
    select: { id: true },
  });
  await tx.reservation.updateMany({
    where: { partId: gone.id, state: "held" },
    data: { partId: kept.id, version: { increment: 1 } },
  });
  await fillShortagesIn(tx, shop, kept.id);
}
