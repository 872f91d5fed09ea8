import { addToDrafts } from "@/lib/data/orders/draft";
import { placeOrder } from "@/lib/data/orders/place";
import { receiveOrder } from "@/lib/data/orders/receive";
import { belowPoint } from "@/lib/data/stock/drawer";
import type { Stage } from "../stage";
import type { Course } from "../work/courses";

const LINE = { id: true, quantityMilli: true, receivedMilli: true } as const;

/** On each of the days what fell below its point is ordered from its suppliers; of each order the last line comes a week after the rest. */
export async function* deliveries(stage: Stage, days: readonly number[]): Course {
  const { calendar, shop, hands } = stage;
  for (const day of days) {
    const at = calendar.at(day, "09:55");
    yield at;
    const low = (await belowPoint(shop.as(hands.desk, at), 60)).filter((row) => !row.covered);
    if (low.length === 0) continue;
    const wanted = low.map((row) => ({
      partId: row.id,
      quantityMilli: row.pointMilli * 3 - Math.min(0, row.freeMilli),
    }));
    const orders = [...new Set(await addToDrafts(shop.as(hands.desk, at), wanted))];
    for (const orderId of orders) {
      const { version } = await order(stage, at, orderId);
      await placeOrder(shop.as(hands.desk, at), { orderId, version });
    }
    for (const [half, when] of [
      [0, calendar.at(day + 3, "10:25")],
      [1, calendar.at(day + 8, "10:25")],
    ] as const) {
      yield when;
      for (const orderId of orders) {
        const { lines } = await order(stage, when, orderId);
        const open = lines.filter((line) => line.receivedMilli < line.quantityMilli);
        const came = half === 0 && open.length > 1 ? open.slice(0, -1) : open;
        if (came.length === 0) continue;
        await receiveOrder(shop.as(hands.desk, when), {
          orderId,
          lines: came.map((line) => ({
            lineId: line.id,
            quantityMilli: line.quantityMilli - line.receivedMilli,
          })),
        });
      }
    }
  }
}

function order(stage: Stage, at: Date, id: number) {
  return stage.shop.as(stage.hands.desk, at).read.purchaseOrder.findUniqueOrThrow({
    where: { id },
    select: { version: true, lines: { select: LINE, orderBy: { id: "asc" } } },
  });
}
