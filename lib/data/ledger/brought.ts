import { rowsOf } from "@/lib/db/plainSql";
import type { ShopHandle } from "@/lib/db/shop";
import { movedMinor, settled } from "@/lib/domain/invoices/held";
import type { AccountUse } from "@/lib/domain/ledger/accounts";
import { AGAINST, METHODS } from "@/lib/domain/ledger/post";
import { minorPerMajor } from "@/lib/domain/money/currency";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { standBefore } from "./positions";
import { CAUSES } from "./stock";

/** So many moves are added up in one statement. */
const MOVES_AT_ONCE = 10_000;

/**
 * What everything before a day put on each use's account, as posting every event would, added up by the database. Income is told as one
 * sum, of work that is taxed: only for days of years that are over, whose income is one sum in the result of the years before.
 */
export async function broughtBefore(
  shop: ShopHandle,
  day: string,
  stockToo: boolean,
): Promise<ReadonlyMap<AccountUse, number>> {
  const sums = new Map<AccountUse, number>();
  const add = (use: AccountUse, minor: number) => sums.set(use, (sums.get(use) ?? 0) + minor);
  const [stand, { _sum: documents }, { _sum: prepaid }, payments, held, { _sum: counts }, { _sum: moves }] =
    await Promise.all([
      standBefore(shop.read, day),
      shop.read.invoice.aggregate({
        where: { state: "issued", issuedOn: { lt: day } },
        _sum: { netMinor: true, taxMinor: true },
      }),
      shop.read.invoice.aggregate({
        where: { state: "issued", issuedOn: { lt: day }, saleId: null },
        _sum: { prepaidMinor: true },
      }),
      shop.read.payment.groupBy({
        by: ["kind", "method"],
        where: { paidOn: { lt: day } },
        _sum: { amountMinor: true, roundingMinor: true },
        orderBy: [{ kind: "asc" }, { method: "asc" }],
      }),
      shop.read.payment.groupBy({
        by: ["kind"],
        where: { paidOn: { lt: day }, saleId: null, invoiceId: null },
        _sum: { amountMinor: true, roundingMinor: true },
        orderBy: { kind: "asc" },
      }),
      shop.read.endOfDay.aggregate({
        where: { day: { lt: day } },
        _sum: { differenceMinor: true, countedMinor: true, leftMinor: true },
      }),
      shop.read.drawerMove.aggregate({ where: { day: { lt: day } }, _sum: { amountMinor: true } }),
    ]);
  add("receivable", stand.receivable);
  add("customerBalance", stand.customerBalance);
  add("deposits", stand.deposits);
  add("workTaxed", 0 - (documents.netMinor ?? 0));
  add("tax", 0 - (documents.taxMinor ?? 0));
  add("deposits", prepaid.prepaidMinor ?? 0);
  for (const { kind, method, _sum } of payments) {
    const row = { kind, amountMinor: _sum.amountMinor ?? 0, roundingMinor: _sum.roundingMinor ?? 0 };
    if (kind === "writeOff") {
      add("writeOff", settled(row));
      continue;
    }
    const use = METHODS[method];
    if (!use) throw new Error(`A payment was made by "${method}", which has no account.`);
    add(use, movedMinor(row));
    add("rounding", settled(row) - movedMinor(row));
  }
  for (const { kind, _sum } of held)
    add(
      "deposits",
      0 - settled({ kind, amountMinor: _sum.amountMinor ?? 0, roundingMinor: _sum.roundingMinor ?? 0 }),
    );
  const difference = counts.differenceMinor ?? 0;
  const moved = (counts.leftMinor ?? 0) - (counts.countedMinor ?? 0) + (moves.amountMinor ?? 0);
  add("cash", difference + moved);
  add("cashDifference", 0 - difference);
  add("drawerMoves", 0 - moved);
  if (stockToo)
    for (const [kind, minor] of await stockBefore(shop, day)) {
      const cause = CAUSES[kind];
      if (!cause) throw new Error(`Moves of kind ${kind} have no cause.`);
      add("stock", minor);
      add(AGAINST[cause], 0 - minor);
    }
  return sums;
}

/** What moves before a day were worth at cost by kind, each rounded by itself to minor units, halves away from zero. */
async function stockBefore(shop: ShopHandle, day: string): Promise<Map<string, number>> {
  const [{ zone, currency }, last] = await Promise.all([
    shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true, currency: true } }),
    shop.read.move.findFirst({ select: { id: true }, orderBy: { id: "desc" } }),
  ]);
  const end = new Date(instantOf(day, "00:00", zone));
  const sums = new Map<string, number>();
  for (let after = 0; after < (last?.id ?? 0); after += MOVES_AT_ONCE) {
    const rows = await rowsOf<"kind" | "minor">(
      shop.read,
      `SELECT m."kind" AS "kind", CAST(SUM(${valueSql(currency)}) AS BIGINT) AS "minor" FROM "Move" m
WHERE m."id" > ? AND m."id" <= ? AND m."kind" <> 'betweenBins' AND m."at" < ? GROUP BY m."kind"`,
      after,
      after + MOVES_AT_ONCE,
      end,
    );
    for (const { kind, minor } of rows) sums.set(String(kind), (sums.get(String(kind)) ?? 0) + Number(minor));
  }
  return sums;
}

/** A move's worth in minor units, as `amountOf` rounds it. Its factors are 32 bits wide, so that 64 bits hold twice their product. */
export function valueSql(currency: string): string {
  const under = 10_000_000 / minorPerMajor(currency);
  const twice = `2 * CAST(COALESCE(m."unitCostE4", 0) AS BIGINT) * m."quantityMilli"`;
  return `CASE WHEN m."quantityMilli" < 0 THEN 0 - (${under} - ${twice}) / ${2 * under} ELSE (${under} + ${twice}) / ${2 * under} END`;
}
