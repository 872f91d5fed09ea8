import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { taxMark } from "@/lib/domain/tax/rates";
import type { PartListQuery } from "@/lib/schemas/parts";
import { partsMatching } from "../common/narrow";
import { isBelow } from "./drawer";
import { LIES } from "./lying";
import { shortOf } from "./shortages";

const ROW = {
  id: true,
  code: true,
  name: true,
  kind: true,
  unit: true,
  family: true,
  sizeMilli: true,
  bin: true,
  supplier: true,
  priceE4: true,
  pointMilli: true,
  onHandMilli: true,
  reservedMilli: true,
  onOrderMilli: true,
  active: true,
  replacedBy: { select: { id: true, code: true, name: true } },
  bins: LIES,
} satisfies Prisma.PartSelect;

type Row = Prisma.PartGetPayload<{ select: typeof ROW }>;
export type StockRow = Row & { freeMilli: number; below: boolean };

const shown = (row: Row): StockRow => ({
  ...row,
  freeMilli: row.onHandMilli - row.reservedMilli,
  below: isBelow(row),
});

/** A page of parts by code. `next` is the cursor of the following page, null on the last one. */
export async function listParts(
  shop: ShopHandle,
  query: Partial<PartListQuery>,
  take = 50,
): Promise<{ rows: StockRow[]; next: number | null }> {
  const where: Prisma.PartWhereInput = {
    ...(query.kind ? { kind: query.kind } : {}),
    ...(query.family ? { family: query.family } : {}),
    AND: [await partsMatching(shop, query.q ?? "")],
    ...(query.below
      ? {
          active: true,
          pointMilli: { gt: 0 },
          OR: [{ onHandMilli: { lt: shop.read.part.fields.pointMilli } }, { reservedMilli: { gt: 0 } }],
        }
      : {}),
  };
  const rows: StockRow[] = [];
  let after = query.after;
  // A reserved part may still be above its point, so a page of the "below" list can need a second look.
  while (rows.length <= take) {
    const batch = await shop.read.part.findMany({
      where,
      select: ROW,
      orderBy: { code: "asc" },
      take: take + 1,
      ...(after === undefined ? {} : { cursor: { id: after }, skip: 1 }),
    });
    rows.push(...batch.map(shown).filter((row) => !query.below || row.below));
    after = batch.at(-1)?.id;
    if (batch.length <= take) break;
  }
  const page = rows.slice(0, take);
  return { rows: page, next: rows.length > take ? (page.at(-1)?.id ?? null) : null };
}

/** Names of the families in use, for filters and suggestions. */
export async function listFamilies(shop: ShopHandle): Promise<string[]> {
  const rows = await shop.read.part.groupBy({
    by: ["family"],
    where: { family: { not: "" } },
    orderBy: { family: "asc" },
  });
  return rows.map((row) => row.family);
}

/** One part with what is reserved of it and its newest moves. Costs only where they may be seen. */
export async function getPart(shop: ShopHandle, id: number, withCost: boolean) {
  const staff = shop.read.staff.findMany({ select: { id: true, name: true }, orderBy: { id: "asc" } });
  const asked = shop.read.part.findUnique({
    where: { id },
    select: {
      ...ROW,
      convention: true,
      supplierCode: true,
      leadDays: true,
      topMilli: true,
      priceE4: true,
      priceUntil: true,
      taxCategory: true,
      version: true,
      replaces: {
        where: { active: true },
        select: { id: true, code: true, onHandMilli: true },
        orderBy: { code: "asc" },
        take: 20,
      },
      costE4: withCost,
      averageE4: withCost,
      reservations: {
        where: { state: "held" },
        select: {
          id: true,
          wantedMilli: true,
          reservedMilli: true,
          usedMilli: true,
          job: { select: { id: true, number: true, title: true } },
        },
        orderBy: [{ jobId: "asc" }, { id: "asc" }],
      },
      moves: {
        select: {
          id: true,
          kind: true,
          quantityMilli: true,
          bin: true,
          unitCostE4: withCost,
          at: true,
          writtenAt: true,
          why: true,
          staffId: true,
          orderLineId: true,
          job: { select: { id: true, number: true } },
        },
        orderBy: { id: "desc" },
        take: 60,
      },
    },
  });
  const [found, people] = await Promise.all([asked, staff]);
  if (!found) return null;
  const { reservations, moves, costE4, averageE4, ...part } = found;
  const who = new Map(people.map((s) => [s.id, s.name]));
  return {
    ...shown(part),
    convention: part.convention,
    supplierCode: part.supplierCode,
    leadDays: part.leadDays,
    topMilli: part.topMilli,
    priceE4: part.priceE4,
    priceUntil: part.priceUntil,
    taxMark: taxMark(part.taxCategory),
    version: part.version,
    replaces: part.replaces,
    // The client's types cannot follow a select made at run time.
    cost: withCost ? { costE4: costE4 ?? null, averageE4: averageE4 ?? null } : null,
    reservations: reservations.map((r) => ({ ...r, shortMilli: shortOf(r) })),
    moves: withBalances(moves, part.onHandMilli).map((move) => ({
      ...move,
      by: who.get(move.staffId ?? 0) ?? "",
    })),
  };
}

export type PartView = NonNullable<Awaited<ReturnType<typeof getPart>>>;

/** What was on hand after each move, counted back from now. Newest first. */
function withBalances<M extends { kind: string; quantityMilli: number }>(
  moves: readonly M[],
  onHandMilli: number,
) {
  let after = onHandMilli;
  return moves.map((move) => {
    const row = { ...move, afterMilli: after };
    if (move.kind !== "betweenBins") after -= move.quantityMilli;
    return row;
  });
}

/** On hand as the ledger tells it, beside the projection: they must be equal. */
export async function provePart(shop: ShopHandle, id: number) {
  const [sum, part] = await Promise.all([
    shop.read.move.aggregate({ where: { partId: id }, _sum: { quantityMilli: true } }),
    shop.read.part.findUniqueOrThrow({ where: { id }, select: { onHandMilli: true } }),
  ]);
  return { ledgerMilli: sum._sum.quantityMilli ?? 0, onHandMilli: part.onHandMilli };
}
