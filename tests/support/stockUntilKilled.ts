// A process that takes deliveries in and counts a bin through the data layer until it is killed:
// tsx stockUntilKilled.ts <database> <turn>. It says each thing it was told is done, one JSON line each, only after the
// write answered.
import { addToDrafts } from "@/lib/data/orders/draft";
import { getOrder } from "@/lib/data/orders/list";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { approveCount } from "@/lib/data/stock/approveCounts";
import { enterCount, getCount, startCount } from "@/lib/data/stock/binCounts";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, turn] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date("2026-11-25T00:30:00Z"));
const say = (told: object) => process.stdout.write(`${JSON.stringify(told)}\n`);
const parts = await shop.read.part.findMany({ select: { id: true }, orderBy: { id: "asc" }, take: 10 });

for (let n = 0; n < 400; n++) {
  const [orderId] = await addToDrafts(
    shop,
    parts.map((part) => ({ partId: part.id, quantityMilli: 6_000 })),
  );
  const draft = await getOrder(shop, orderId as number, true);
  await placeOrder(shop, { orderId: orderId as number, version: draft?.version ?? 0 });
  const lines = draft?.lines.map((line) => line.id) ?? [];
  say({ placed: orderId });
  for (const [share, quantityMilli] of [1_000, 2_000, 3_000].entries()) {
    const delivery = {
      orderId: orderId as number,
      lines: lines.map((lineId) => ({ lineId, quantityMilli, unitCostE4: 30_000 + n * 100 + share })),
      key: `delivery-${turn}-${n}-${share}`,
    };
    await receiveOrder(shop, delivery);
    say({ received: delivery });
  }
  const sheetId = await startCount(shop, "K1");
  const sheet = await getCount(shop, sheetId);
  if (sheet?.state === "open") {
    const onHand = await shop.read.part.findMany({
      where: { id: { in: sheet.lines.map((line) => line.partId) } },
      select: { id: true, onHandMilli: true },
      orderBy: { id: "asc" },
      take: 10,
    });
    // One short in every other part.
    const counted = onHand.map((part, at) => ({
      partId: part.id,
      countedMilli: at % 2 ? Math.max(0, part.onHandMilli - 1_000) : part.onHandMilli,
    }));
    await enterCount(shop, { sheetId, version: sheet.version, counted });
    say({ counted: sheetId });
  }
  const entered = await getCount(shop, sheetId);
  await approveCount(shop, { sheetId, version: entered?.version ?? 0, leaveOut: [] });
  say({ approved: sheetId });
}
await closeShops();
