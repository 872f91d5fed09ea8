import type { ShopHandle } from "@/lib/db/shop";
import { dayProblems } from "../endOfDay/invariants";
import { moneyProblems } from "../invoices/invariants";
import { shareProblems } from "../invoices/shareInvariants";
import { ledgerProblems } from "../ledger/invariants";
import { orderProblems } from "../orders/invariants";
import { type FileReader, photoProblems } from "../photos/check";
import { binProblems } from "../stock/invariants";

/**
 * Everything that must always hold in a shop's database: a sentence for each thing that does not. Run by tests,
 * after a backup is restored, and by an owner's button. With `files`, the shop's file store, its photos' pictures too.
 */
export async function problemsOf(shop: ShopHandle, files?: FileReader): Promise<string[]> {
  return [
    ...(await stockProblems(shop)),
    ...(await binProblems(shop)),
    ...(await orderProblems(shop)),
    ...(await timeProblems(shop)),
    ...(await moneyProblems(shop)),
    ...(await ledgerProblems(shop)),
    ...(await shareProblems(shop)),
    ...(await dayProblems(shop)),
    ...(files ? await photoProblems(shop, files) : []),
  ];
}

async function stockProblems(shop: ShopHandle): Promise<string[]> {
  const [parts, moved, held] = await Promise.all([
    shop.read.part.findMany({
      select: { id: true, code: true, onHandMilli: true, reservedMilli: true, onOrderMilli: true },
      orderBy: { id: "asc" },
    }),
    shop.read.move.groupBy({ by: ["partId"], _sum: { quantityMilli: true } }),
    shop.read.reservation.groupBy({
      by: ["partId"],
      where: { state: "held" },
      _sum: { reservedMilli: true },
    }),
  ]);
  const onHand = new Map(moved.map((row) => [row.partId, row._sum.quantityMilli ?? 0]));
  const reservations = new Map(held.map((row) => [row.partId, row._sum.reservedMilli ?? 0]));
  return parts.flatMap((part) => {
    const sum = onHand.get(part.id) ?? 0;
    const reserved = reservations.get(part.id) ?? 0;
    return [
      ...(part.onHandMilli === sum
        ? []
        : [`${part.code}: on hand says ${part.onHandMilli}, its moves add up to ${sum}.`]),
      ...(part.onHandMilli < 0 ? [`${part.code}: on hand is below zero.`] : []),
      ...(part.reservedMilli === reserved
        ? []
        : [`${part.code}: reserved says ${part.reservedMilli}, its reservations ${reserved}.`]),
      ...(part.reservedMilli > part.onHandMilli + part.onOrderMilli
        ? [`${part.code}: more is reserved than there is.`]
        : []),
    ];
  });
}

async function timeProblems(shop: ShopHandle): Promise<string[]> {
  const [running, backwards] = await Promise.all([
    shop.read.timeEntry.groupBy({ by: ["staffId"], where: { endedAt: null }, _count: { id: true } }),
    shop.read.timeEntry.findMany({
      where: { endedAt: { lt: shop.read.timeEntry.fields.startedAt } },
      select: { id: true },
      orderBy: { id: "asc" },
      take: 20,
    }),
  ]);
  return [
    ...running
      .filter((row) => row._count.id > 1)
      .map((row) => `Person ${row.staffId} has ${row._count.id} time entries running.`),
    ...backwards.map((row) => `Time entry ${row.id} ends before it starts.`),
  ];
}
