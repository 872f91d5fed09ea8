import { beforeAll, describe, expect, it } from "vitest";
import { previewImport, runImport } from "@/lib/data/imports/run";
import { addToDrafts, changeLine } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { offerPart } from "@/lib/data/orders/offers";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { changePart, createPart } from "@/lib/data/parts/save";
import { recordMove } from "@/lib/data/stock/moves";
import { getPart } from "@/lib/data/stock/parts";
import type { Actor, ShopHandle } from "@/lib/db/shop";
import { ImportSchema } from "@/lib/schemas/imports";
import { PartSupplierSchema } from "@/lib/schemas/orders";
import { NewPartSchema, PartSchema } from "@/lib/schemas/parts";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let made = 0;

const who = (shop: ShopHandle, role: Actor["role"]) => as(shop, { by: { ...shop.by, role } });
const fields = (more: Record<string, string> = {}) => ({
  code: `CO-${++made}`,
  name: "Pilot jet",
  kind: "other",
  unit: "each",
  supplier: "Marl Supplies",
  ...more,
});
const part = (shop: ShopHandle, more: Record<string, string> = {}) =>
  createPart(shop, NewPartSchema.parse(fields(more)));
const costs = async (id: number) => {
  const row = await a.read.part.findUniqueOrThrow({ where: { id } });
  return { cost: row.costE4, average: row.averageE4, onHand: row.onHandMilli };
};

async function placed(partId: number): Promise<{ orderId: number; lineId: number }> {
  const [orderId] = await addToDrafts(a, [{ partId, quantityMilli: 10_000 }]);
  const order = await getOrder(a, orderId as number, true);
  if (!order) throw new Error("no order");
  await placeOrder(a, { orderId: order.id, version: order.version });
  return { orderId: order.id, lineId: order.lines.find((line) => line.partId === partId)?.id as number };
}

beforeAll(async () => {
  ({ a, b } = await twoShops());
});

describe.each(["tuner", "desk"] as const)("a %s, who may not read costs", (role) => {
  it("sets none at a delivery: nothing of it is taken in", async () => {
    const id = await part(a, { cost: "4.00", opening: "10" });
    const { orderId, lineId } = await placed(id);
    const line = { lineId, quantityMilli: 10_000 };
    const shop = who(a, role);
    await expect(
      receiveOrder(shop, { orderId, lines: [{ ...line, unitCostE4: 900_000 }] }),
    ).rejects.toMatchObject({
      kind: "forbidden",
      fields: { [`lines.${lineId}.cost`]: expect.any(String) },
    });
    expect(await costs(id)).toEqual({ cost: 40_000, average: 40_000, onHand: 10_000 });
    await receiveOrder(shop, { orderId, lines: [line] });
    expect(await costs(id)).toEqual({ cost: 40_000, average: 40_000, onHand: 20_000 });
  });

  it("sets none by a move, on a new part, on an old one, with a supplier or on a draft", async () => {
    const id = await part(a, { cost: "4.00", opening: "10" });
    const shop = who(a, role);
    const refused = { kind: "forbidden" };
    await expect(
      recordMove(shop, { partId: id, kind: "receipt", quantityMilli: 1000, unitCostE4: 900_000 }),
    ).rejects.toMatchObject(refused);
    await expect(part(shop, { cost: "90.00" })).rejects.toMatchObject(refused);
    const before = await getPart(a, id, true);
    const change = { ...fields({ cost: "90.00" }), id: String(id), version: String(before?.version) };
    await expect(changePart(shop, PartSchema.parse(change))).rejects.toMatchObject(refused);
    const offer = PartSupplierSchema.parse({ partId: String(id), supplier: "Marl Supplies", cost: "90.00" });
    await expect(offerPart(shop, offer)).rejects.toMatchObject(refused);
    const [orderId] = await addToDrafts(a, [{ partId: id, quantityMilli: 1000 }]);
    const draft = await getOrder(a, orderId as number, true);
    const lineId = draft?.lines[0]?.id as number;
    await expect(
      changeLine(shop, { lineId, quantityMilli: 1000, unitCostE4: 900_000 }),
    ).rejects.toMatchObject(refused);
    expect(await costs(id)).toEqual({ cost: 40_000, average: 40_000, onHand: 10_000 });
    await recordMove(shop, { partId: id, kind: "receipt", quantityMilli: 1000 });
    expect(await costs(id)).toEqual({ cost: 40_000, average: 40_000, onHand: 11_000 });
  });

  it("brings none in from a file", async () => {
    const id = await part(a, { cost: "4.00" });
    const code = `CO-${made}`;
    const input = (noun: string, map: Record<string, string>) =>
      ImportSchema.parse({ noun, fileName: "p.csv", text: `Code,Cost,Price\n${code},90.00,120.00\n`, map });
    const shop = who(a, role);
    for (const run of [previewImport, runImport])
      await expect(
        run(shop, input("prices", { code: "0", costE4: "1", priceE4: "2" })),
      ).rejects.toMatchObject({
        kind: "forbidden",
      });
    await runImport(shop, input("prices", { code: "0", priceE4: "2" }));
    expect((await costs(id)).cost).toBe(40_000);
  });
});

describe("an owner", () => {
  it("sets the cost at a delivery, in their own shop alone", async () => {
    const id = await part(a, { cost: "4.00", opening: "10" });
    const { orderId, lineId } = await placed(id);
    const lines = [{ lineId, quantityMilli: 10_000, unitCostE4: 60_000 }];
    await receiveOrder(a, { orderId, lines });
    expect((await costs(id)).average).toBe(50_000);
    await expect(receiveOrder(b, { orderId, lines })).rejects.toThrow(/gone/);
  });
});
