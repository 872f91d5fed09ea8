import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { dayTexts } from "../shop/dayTexts";

type Db = Pick<ShopTx, "endOfDay">;

/** The newest day that was closed; null where none was. */
export const lastEnd = (db: Db) =>
  db.endOfDay.findFirst({
    select: { id: true, day: true, closedAt: true, leftMinor: true },
    orderBy: { day: "desc" },
  });

/** Refuses cash dated on a day whose drawer was counted: what was counted then would no longer be what was there. */
export async function demandDrawerOpen(tx: ShopTx, shop: ShopHandle, day: string): Promise<void> {
  const last = await lastEnd(tx);
  if (!last || day > last.day) return;
  const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const open = dayAfter(last.day);
  const text = await dayTexts(tx);
  const remedy =
    open > dayIn(zone, shop.now)
      ? "Take it by card or bank transfer, or record it tomorrow, when it lies in that day's drawer."
      : `Date it ${text(open)} or later, when it lies in that day's drawer; or record it as card or bank transfer if that is how it was paid.`;
  throw new Refusal(
    `The drawer is counted and closed up to ${text(last.day)}: no cash can be added to that. Nothing was recorded.`,
    remedy,
    { paidOn: remedy },
    "conflict",
  );
}
