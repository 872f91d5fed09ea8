import { beforeAll, describe, expect, it } from "vitest";
import { postgresUrl } from "@/lib/db/folders";
import { giveWay, inBackground } from "@/lib/db/giveWay";
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

describe("work in the background", () => {
  const work = (ms: number) => {
    const until = performance.now() + ms;
    while (performance.now() < until);
  };
  const untilOver = async (pieces: number, ms: number) => {
    let done = 0;
    for (let n = 0; n < pieces; n++) {
      await giveWay();
      work(ms);
      done += 1;
    }
    return done;
  };
  const nextTurn = () => new Promise((resume) => setImmediate(resume));

  it("does little while others keep the server busy, and goes on once they are done", async () => {
    let pieces = 0;
    const behind = inBackground(async () => {
      for (let n = 0; n < 60; n++) {
        await giveWay();
        work(6);
        pieces += 1;
      }
    });
    for (let turn = 0; turn < 40; turn++) {
      work(4);
      await nextTurn();
    }
    const meanwhile = pieces;
    await behind;
    expect(meanwhile).toBeGreaterThan(0);
    expect(meanwhile).toBeLessThan(15);
    expect(pieces).toBe(60);
  });

  it("comes to its end however busy the server is", async () => {
    let over = false;
    const behind = inBackground(() => untilOver(5, 6)).then((done) => {
      over = true;
      return done;
    });
    for (let turn = 0; !over && turn < 2000; turn++) {
      work(4);
      await nextTurn();
    }
    expect(over).toBe(true);
    expect(await behind).toBe(5);
  });

  // A query that waits for a server leaves this process time that nobody else wants: there is no telling how many pieces it has room for.
  it.skipIf(postgresUrl())("does not make each query of a request wait for a piece of it", async () => {
    let over = false;
    let pieces = 0;
    const behind = inBackground(async () => {
      while (!over) {
        await giveWay();
        work(6);
        pieces += 1;
      }
    });
    await nextTurn();
    const before = pieces;
    for (let n = 0; n < 100; n++)
      await shops.b.read.part.findFirst({ where: { id: n }, orderBy: { id: "asc" } });
    const meanwhile = pieces - before;
    over = true;
    await behind;
    expect(meanwhile).toBeLessThan(20);
  });
});
