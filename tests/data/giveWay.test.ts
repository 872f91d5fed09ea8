import { beforeAll, expect, it } from "vitest";
import { giveWay } from "@/lib/db/giveWay";
import type { ShopHandle } from "@/lib/db/shop";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

/** Asks so many times, in one chain, and counts the turns that the event loop had for others meanwhile. */
async function turnsDuring(run: () => Promise<void>): Promise<number> {
  let turns = 0;
  let over = false;
  const turn = () => {
    turns += 1;
    if (!over) setImmediate(turn);
  };
  setImmediate(turn);
  await run();
  over = true;
  return turns;
}

const busy = (reader: Pick<ShopHandle["read"], "part">) => async () => {
  for (let n = 0; n < 2000; n++) await reader.part.findFirst({ where: { id: n }, orderBy: { id: "asc" } });
};

it("a long chain of queries lets others be served, reading and within a transaction", async () => {
  expect(await turnsDuring(busy(shops.a.read))).toBeGreaterThan(5);
  expect(await turnsDuring(() => shops.a.write((tx) => busy(tx)()))).toBeGreaterThan(5);
});

it("computations that each take long have a turn for others between any two of them", async () => {
  const computed = async () => {
    for (let n = 0; n < 6; n++) {
      await giveWay();
      const until = performance.now() + 10;
      while (performance.now() < until);
    }
  };
  expect(await turnsDuring(computed)).toBeGreaterThanOrEqual(5);
});

it("another shop's reader is answered while a transaction of many statements is under way", async () => {
  let over = false;
  const writing = shops.a
    .write((tx) => busy(tx)())
    .then(() => {
      over = true;
    });
  await new Promise((resume) => setTimeout(resume, 1));
  await shops.b.read.part.findFirst({ orderBy: { id: "asc" } });
  expect(over).toBe(false);
  await writing;
});
