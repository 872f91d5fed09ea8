import type { ShopHandle } from "@/lib/db/shop";
import { expectedCash } from "@/lib/domain/endOfDay/drawer";
import { netOf, takingsOf } from "@/lib/domain/endOfDay/takings";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { hashOf } from "../common/hash";
import { type FrozenDay, storedDay } from "../documents/endOfDay";

/** Days with their sheets that are looked at together. */
const PAGE = 20;

/** A sentence for each thing about closed days that does not hold: each re-adds from the money on record and begins where the last ended. */
export async function dayProblems(shop: ShopHandle): Promise<string[]> {
  const problems: string[] = [];
  let before: FrozenDay | null = null;
  for (let after = ""; ; ) {
    const rows = await shop.read.endOfDay.findMany({
      where: { day: { gt: after } },
      select: { day: true, frozen: true, hash: true },
      orderBy: { day: "asc" },
      take: PAGE,
    });
    const days = rows.map((row) => ({ ...row, doc: storedDay(row.frozen) }));
    const money = await moneyIn(
      shop,
      days.map(({ doc }) => doc),
    );
    for (const { doc, ...row } of days) {
      if (hashOf(row.frozen) !== row.hash) problems.push(`The end of ${row.day} was changed.`);
      const own = money.filter((one) => one.paidOn >= doc.fromDay && one.paidOn <= doc.day);
      problems.push(...problemsOf(doc, before, own));
      before = doc;
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) return problems;
    after = last.day;
  }
}

/** So many payments are read at once. */
const PAYMENTS = 1_000;

type Money = Awaited<ReturnType<typeof moneyAfter>>[number];

/** Money that moved on the days of some sheets, read for all of them together. Write-offs are no money. */
async function moneyIn(shop: ShopHandle, docs: readonly FrozenDay[]): Promise<Money[]> {
  const paidOn = {
    gte: docs.map((doc) => doc.fromDay).sort()[0] ?? "",
    lte:
      docs
        .map((doc) => doc.day)
        .sort()
        .at(-1) ?? "",
  };
  const found: Money[] = [];
  for (let after = 0; docs.length > 0; ) {
    const rows = await moneyAfter(shop, paidOn, after);
    found.push(...rows);
    const last = rows.at(-1);
    if (!last || rows.length < PAYMENTS) break;
    after = last.id;
  }
  return found;
}

function moneyAfter(shop: ShopHandle, paidOn: { readonly gte: string; readonly lte: string }, after: number) {
  return shop.read.payment.findMany({
    where: { id: { gt: after }, paidOn, kind: { not: "writeOff" } },
    select: {
      id: true,
      kind: true,
      method: true,
      amountMinor: true,
      roundingMinor: true,
      paidOn: true,
      saleId: true,
    },
    orderBy: { id: "asc" },
    take: PAYMENTS,
  });
}

function problemsOf(doc: FrozenDay, before: FrozenDay | null, money: readonly Money[]): string[] {
  const name = `The end of ${doc.day}`;
  const onSheet = new Set(doc.payments.map((one) => one.id));
  const own = money
    .filter((one) => onSheet.has(one.id))
    .map((one) => ({ ...one, overCounter: one.saleId !== null }));
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
