import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { openOf } from "@/lib/domain/stock/orders";
import type { OrderListQuery } from "@/lib/schemas/orders";
import { zoneIn } from "../common/zone";

/** A page of orders, newest first. `next` is the cursor of the following page, null on the last one. */
export async function listOrders(shop: ShopHandle, query: Partial<OrderListQuery>, take = 50) {
  const where: Prisma.PurchaseOrderWhereInput = {
    ...(query.state ? { state: query.state } : {}),
    ...(query.supplier ? { supplierId: query.supplier } : {}),
    ...(query.after ? { id: { lt: query.after } } : {}),
  };
  const rows = await shop.read.purchaseOrder.findMany({
    where,
    select: {
      id: true,
      number: true,
      state: true,
      orderedOn: true,
      supplier: { select: { name: true } },
      lines: {
        select: {
          quantityMilli: true,
          receivedMilli: true,
          cancelledMilli: true,
          dueOn: true,
          jobId: true,
        },
        orderBy: { id: "asc" },
      },
    },
    orderBy: { id: "desc" },
    take: take + 1,
  });
  const today = dayOf(shop.now.getTime(), await zoneIn(shop.read));
  const page = rows.slice(0, take).map(({ lines, supplier, ...order }) => {
    const open = lines.filter((line) => openOf(line) > 0);
    const due = open.flatMap((line) => line.dueOn ?? []).sort()[0] ?? null;
    return {
      ...order,
      supplier: supplier.name,
      lines: lines.length,
      open: order.state === "draft" ? lines.length : open.length,
      forJobs: lines.some((line) => line.jobId !== null),
      dueOn: due,
      late: order.state !== "draft" && due !== null && due < today,
    };
  });
  return { rows: page, next: rows.length > take ? (page.at(-1)?.id ?? null) : null };
}

/** One order with its lines and what came on each. Costs only where they may be seen. */
export async function getOrder(shop: ShopHandle, id: number, withCost: boolean) {
  const found = await shop.read.purchaseOrder.findUnique({
    where: { id },
    select: {
      id: true,
      number: true,
      state: true,
      orderedOn: true,
      note: true,
      createdAt: true,
      mailedAt: true,
      version: true,
      supplier: {
        select: {
          id: true,
          name: true,
          email: true,
          phone: true,
          address: true,
          customerNumber: true,
          leadDays: true,
        },
      },
      lines: {
        select: {
          id: true,
          partId: true,
          code: true,
          quantityMilli: true,
          receivedMilli: true,
          cancelledMilli: true,
          unitCostE4: withCost,
          dueOn: true,
          jobId: true,
          why: true,
          part: {
            select: {
              code: true,
              name: true,
              unit: true,
              bin: true,
              replacedBy: { select: { id: true, code: true } },
              averageE4: withCost,
              costE4: withCost,
            },
          },
        },
        orderBy: { id: "asc" },
        take: 1000,
      },
    },
  });
  if (!found) return null;
  const ids = found.lines.map((line) => line.id);
  const jobIds = [...new Set(found.lines.flatMap((line) => line.jobId ?? []))];
  const [receipts, jobs, zone] = await Promise.all([
    shop.read.move.findMany({
      where: { orderLineId: { in: ids } },
      select: {
        id: true,
        orderLineId: true,
        quantityMilli: true,
        unitCostE4: withCost,
        at: true,
        why: true,
      },
      orderBy: { id: "asc" },
    }),
    shop.read.job.findMany({
      where: { id: { in: jobIds } },
      select: { id: true, number: true },
      orderBy: { id: "asc" },
    }),
    zoneIn(shop.read),
  ]);
  const today = dayOf(shop.now.getTime(), zone);
  const byLine = Map.groupBy(receipts, (move) => move.orderLineId ?? 0);
  const placed = found.state === "ordered" || found.state === "partReceived";
  return {
    ...found,
    placed,
    today,
    lines: found.lines.map((line) => ({
      ...line,
      unitCostE4: line.unitCostE4 ?? null,
      openMilli: openOf(line),
      late: placed && openOf(line) > 0 && line.dueOn !== null && line.dueOn < today,
      job: jobs.find((job) => job.id === line.jobId) ?? null,
      receipts: (byLine.get(line.id) ?? []).map((move) => ({
        ...move,
        unitCostE4: move.unitCostE4 ?? null,
      })),
    })),
  };
}

export type OrderView = NonNullable<Awaited<ReturnType<typeof getOrder>>>;

/** Open order lines of a part, the one due first. */
export async function openLinesOf(shop: ShopHandle, partId: number) {
  const rows = await shop.read.orderLine.findMany({
    where: { partId, order: { state: { in: ["draft", "ordered", "partReceived"] } } },
    select: {
      id: true,
      quantityMilli: true,
      receivedMilli: true,
      cancelledMilli: true,
      dueOn: true,
      order: { select: { id: true, number: true, state: true, supplier: { select: { name: true } } } },
    },
    orderBy: { id: "asc" },
  });
  return rows
    .map((row) => ({ ...row, openMilli: openOf(row) }))
    .filter((row) => row.openMilli > 0)
    .sort((a, b) => (a.dueOn ?? "9999").localeCompare(b.dueOn ?? "9999") || a.id - b.id);
}
