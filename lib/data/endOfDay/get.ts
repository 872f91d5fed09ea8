import type { ShopHandle } from "@/lib/db/shop";
import { storedDay } from "../documents/endOfDay";
import { moneyOf } from "./rows";

/** A closed day: what its sheet says, its money with where it opens, and what was recorded for its days after it was closed. */
export async function getDay(shop: ShopHandle, id: number) {
  const row = await shop.read.endOfDay.findUnique({
    where: { id },
    select: { id: true, day: true, fromDay: true, frozen: true },
  });
  if (!row) return null;
  const doc = storedDay(row.frozen);
  const onSheet = new Set(doc.payments.map((one) => one.id));
  const money = await moneyOf(shop.read, row);
  return {
    id: row.id,
    doc,
    money: money.filter((one) => onSheet.has(one.id)),
    after: money.filter((one) => !onSheet.has(one.id)),
  };
}

const PAGE = 30;

/** Closed days, the newest first: a page of them after the one whose id is given. */
export async function listDays(shop: ShopHandle, after?: number, take = PAGE) {
  const before = after === undefined ? null : await dayOfId(shop, after);
  const rows = await shop.read.endOfDay.findMany({
    where: before === null ? {} : { day: { lt: before } },
    select: {
      id: true,
      day: true,
      fromDay: true,
      closedAt: true,
      expectedMinor: true,
      countedMinor: true,
      differenceMinor: true,
    },
    orderBy: { day: "desc" },
    take: take + 1,
  });
  return { rows: rows.slice(0, take), next: rows.length > take ? (rows[take - 1]?.id ?? null) : null };
}

const dayOfId = async (shop: ShopHandle, id: number) =>
  (await shop.read.endOfDay.findUnique({ where: { id }, select: { day: true } }))?.day ?? "";
