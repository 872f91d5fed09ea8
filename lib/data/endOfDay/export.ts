import type { ShopHandle } from "@/lib/db/shop";
import { type MethodTakings, takingsOf } from "@/lib/domain/endOfDay/takings";
import { type FrozenDay, storedDay } from "../documents/endOfDay";
import { moneyOf } from "./rows";

/** Their frozen texts are long. */
const PAGE = 20;

/** A closed day and what was recorded for its days after it was closed. */
export interface ExportedDay {
  readonly doc: FrozenDay;
  readonly after: readonly MethodTakings[];
}

/** Every closed day, the oldest first, page by page. */
export async function* exportedDays(shop: ShopHandle): AsyncGenerator<ExportedDay, void, undefined> {
  for (let after = ""; ; ) {
    const rows = await shop.read.endOfDay.findMany({
      where: { day: { gt: after } },
      select: { day: true, fromDay: true, frozen: true },
      orderBy: { day: "asc" },
      take: PAGE,
    });
    for (const row of rows) {
      const doc = storedDay(row.frozen);
      const onSheet = new Set(doc.payments.map((one) => one.id));
      const money = await moneyOf(shop.read, row);
      yield { doc, after: takingsOf(money.filter((one) => !onSheet.has(one.id))) };
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return;
    after = last.day;
  }
}
