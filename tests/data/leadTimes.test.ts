import { expect, it } from "vitest";
import { addToDrafts } from "@/lib/data/orders/draft";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { createPart } from "@/lib/data/parts/save";
import { suggestPoint } from "@/lib/data/stock/habits";
import { leadsBySupplier } from "@/lib/data/stock/leadTimes";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { NewPartSchema } from "@/lib/schemas/parts";
import { as, twoShops } from "../support/shops";

const DAY = 86_400_000;
const later = (shop: ShopHandle, days: number) =>
  as(shop, { now: new Date(shop.now.getTime() + days * DAY) });

/** Ordered on one day, received so many days later. */
async function delivered(shop: ShopHandle, partIds: readonly number[], from: number, took: number) {
  const then = later(shop, from);
  const [orderId = 0] = await addToDrafts(
    then,
    partIds.map((partId) => ({ partId, quantityMilli: 20_000 })),
  );
  const { version } = await then.read.purchaseOrder.findUniqueOrThrow({ where: { id: orderId } });
  await placeOrder(then, { orderId, version });
  const lines = await then.read.orderLine.findMany({ where: { orderId }, orderBy: { id: "asc" } });
  await receiveOrder(later(shop, from + took), {
    orderId,
    lines: lines.map((line) => ({ lineId: line.id, quantityMilli: line.quantityMilli })),
  });
}

it("the point to order at rests on how long the supplier really took, and how far that varied", async () => {
  const { a, b } = await twoShops();
  const part = (code: string) =>
    createPart(
      a,
      NewPartSchema.parse({
        code,
        name: "Bowl gasket",
        kind: "seal",
        unit: "each",
        supplier: "Marl Supplies",
        leadDays: "3",
      }),
    );
  const [id, other] = [await part("LT-1"), await part("LT-2")];
  for (const [at, took] of [4, 6, 8, 10].entries()) await delivered(a, [id, other], at * 20, took);
  const supplier = await a.read.supplier.findFirstOrThrow({ where: { name: "Marl Supplies" } });
  // A parcel of two parts is one delivery: 4, 6, 8, 10 days; mean 7, spread the root of 20 / 3.
  expect([...(await leadsBySupplier(a))]).toEqual([
    [supplier.id, { meanDays: 7, sdDays: Math.sqrt(20 / 3), deliveries: 4 }],
  ]);
  expect((await leadsBySupplier(b)).size).toBe(0);

  for (let n = 0; n < 10; n++)
    await recordMove(later(a, 80 + n * 2), { partId: id, kind: "use", quantityMilli: 4_000 });
  const today = later(a, 100);
  const policy = await suggestPoint(today, { id, unit: "each", leadDays: 3 });
  // The record runs from the first receipt, day 4, to day 100: 97 days with ten uses of four.
  const days = 97;
  const perDay = 40 / days;
  const useSd = Math.sqrt((10 * 16 - days * perDay ** 2) / (days - 1));
  const sd = Math.sqrt(7 * useSd ** 2 + perDay ** 2 * (20 / 3));
  // 1.6449 is the normal distribution's 95 % point; pieces come whole.
  expect(policy?.pointMilli).toBe(Math.ceil(perDay * 7 + 1.6449 * sd) * 1000);
  expect(policy?.because).toContainEqual({
    fact: "7 days lead time, give or take 2.6",
    from: "the supplier's last 4 deliveries, from order to arrival",
  });
});
