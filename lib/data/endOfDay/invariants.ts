import type { ShopHandle } from "@/lib/db/shop";
import { expectedCash } from "@/lib/domain/endOfDay/drawer";
import { netOf, takingsOf } from "@/lib/domain/endOfDay/takings";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { hashOf } from "../common/hash";
import { type FrozenDay, storedDay } from "../documents/endOfDay";
import { type Money, moneyOf } from "./rows";

/** A sentence for each thing about closed days that does not hold: each re-adds from the money on record and begins where the last ended. */
export async function dayProblems(shop: ShopHandle): Promise<string[]> {
  const problems: string[] = [];
  let before: FrozenDay | null = null;
  for (let after = ""; ; ) {
    const rows = await shop.read.endOfDay.findMany({
      where: { day: { gt: after } },
      select: { day: true, frozen: true, hash: true },
      orderBy: { day: "asc" },
      take: 20,
    });
    for (const row of rows) {
      const doc = storedDay(row.frozen);
      if (hashOf(row.frozen) !== row.hash) problems.push(`The end of ${row.day} was changed.`);
      problems.push(...problemsOf(doc, before, await moneyOf(shop.read, doc)));
      before = doc;
    }
    const last = rows.at(-1);
    if (!last) return problems;
    after = last.day;
  }
}

function problemsOf(doc: FrozenDay, before: FrozenDay | null, money: readonly Money[]): string[] {
  const name = `The end of ${doc.day}`;
  const onSheet = new Set(doc.payments.map((one) => one.id));
  const own = money.filter((one) => onSheet.has(one.id));
  const cash = netOf(takingsOf(own), "cash");
  return [
    ...(own.length === doc.payments.length ? [] : [`${name} names money that is not on record.`]),
    ...(expectedCash(doc.floatMinor, cash, doc.moves) === doc.drawer.expectedMinor
      ? []
      : [`${name}: what it expected in the drawer does not re-add from its money.`]),
    ...(money.some((one) => one.method === "cash" && !onSheet.has(one.id))
      ? [`${name}: cash was recorded for it after it was closed.`]
      : []),
    ...(before && dayAfter(before.day) !== doc.fromDay
      ? [`${name} does not follow that of ${before.day}.`]
      : []),
    ...(before && before.leftMinor !== doc.floatMinor
      ? [`${name} began with another float than ${before.day} left.`]
      : []),
  ];
}
