import Database from "better-sqlite3";
import { expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { type Delivery, receiveOrder } from "@/lib/data/orders/receive";
import { createPart } from "@/lib/data/parts/save";
import { prepareShop } from "@/lib/data/shop/prepare";
import { createShopDatabase } from "@/lib/db/migrate";
import { closeShop, type ShopHandle, shopFile } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { NewPartSchema } from "@/lib/schemas/parts";
import { twoShops } from "../support/shops";
import { FULL } from "../support/size";
import { demandWhole, workThenKill } from "../support/workThenKill";

interface Said {
  placed?: number;
  received?: Delivery;
  counted?: number;
  approved?: number;
}

const KILLS = FULL ? 12 : 4;

/** Nothing told as done is missing, and nothing stands half done. */
async function demandKept(shop: ShopHandle, said: readonly Said[]): Promise<void> {
  const lines = await shop.read.orderLine.findMany({
    select: { id: true, orderId: true, receivedMilli: true, order: { select: { state: true } } },
    orderBy: { id: "asc" },
    take: 10_000,
  });
  const sheets = await shop.read.countSheet.findMany({
    select: {
      id: true,
      state: true,
      lines: { select: { countedMilli: true, seenMilli: true, moveId: true }, orderBy: { id: "asc" } },
    },
    orderBy: { id: "asc" },
    take: 10_000,
  });
  const told = new Map<number, number>();
  for (const { received } of said)
    for (const line of received?.lines ?? [])
      told.set(line.lineId, (told.get(line.lineId) ?? 0) + line.quantityMilli);
  for (const [lineId, milli] of told)
    expect(lines.find((line) => line.id === lineId)?.receivedMilli, `line ${lineId}`).toBeGreaterThanOrEqual(
      milli,
    );
  for (const { placed, counted, approved } of said) {
    if (placed) expect(lines.find((line) => line.orderId === placed)?.order.state).not.toBe("draft");
    const state = sheets.find((sheet) => sheet.id === (counted ?? approved))?.state;
    if (counted) expect(["counted", "approved"]).toContain(state);
    if (approved) expect(state).toBe("approved");
  }
  // A delivery is in on all lines of its order or on none, a count in the ledger whole or not at all.
  for (const orderId of new Set(lines.map((line) => line.orderId)))
    expect(
      new Set(lines.filter((line) => line.orderId === orderId).map((line) => line.receivedMilli)).size,
    ).toBe(1);
  for (const sheet of sheets)
    for (const line of sheet.lines) {
      expect(line.countedMilli === null, `sheet ${sheet.id}`).toBe(sheet.state === "open");
      const wants = sheet.state === "approved" && line.countedMilli !== line.seenMilli;
      expect(line.moveId !== null, `sheet ${sheet.id}`).toBe(wants);
    }
}

it(`a server killed ${KILLS} times in the middle of deliveries and counts loses nothing it had acknowledged`, async () => {
  const { a } = await twoShops();
  const database = `stockkilled_${process.pid}`;
  await createShopDatabase({ database, server: "" });
  const shop = () => handleFor({ slug: database, database, server: "" }, SYSTEM, a.now);
  await prepareShop(shop(), { name: "Killed shop", country: "AU" });
  for (let n = 0; n < 4; n++)
    await createPart(
      shop(),
      NewPartSchema.parse({
        code: `K-${n}`,
        name: "Jet",
        kind: "other",
        unit: "each",
        bin: "K1",
        supplier: "Marl",
        opening: "5",
      }),
    );
  await closeShop(database);

  const told: Said[] = [];
  for (let turn = 0; turn < KILLS; turn++) {
    // Any moment of a round: a few tens of milliseconds for one, a few hundred for several.
    const ms = Math.floor(Math.random() * (turn % 2 ? 60 : 400));
    const said = await workThenKill<Said>("stockUntilKilled.ts", [database, String(turn)], {
      ms,
      // Now and then only after a whole round, so that each act was told of however slow the machine is.
      begun: turn % 4 === 3 ? '"approved"' : '"placed"',
    });
    told.push(...said);
    if (!process.env.DATABASE_URL) demandWhole(new Database(shopFile(database)));
    expect(await problemsOf(shop()), `killed after ${ms} ms`).toEqual([]);
    await demandKept(shop(), told);
    // Whoever asks again because no answer came gets the first answer, and nothing is taken in twice.
    const last = said.findLast((one) => one.received)?.received;
    if (last) {
      const moves = await shop().read.move.count();
      await receiveOrder(shop(), last);
      expect(await shop().read.move.count()).toBe(moves);
    }
    await closeShop(database);
  }
  expect(told.some((one) => one.received)).toBe(true);
  expect(told.some((one) => one.approved)).toBe(true);
}, 120_000);
