import { Worker } from "node:worker_threads";
import Database from "better-sqlite3";
import { beforeAll, describe, expect, it } from "vitest";
import { sqliteClient } from "@/lib/db/clients";
import { isLocked, LOCK_WAIT } from "@/lib/db/lockWait";
import { closeShop, shopFile } from "@/lib/db/shop";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

/** Holds a database's write lock beside this thread, until it is let go or four seconds have passed, whatever this thread does. */
const HOLDS = `
  const { parentPort, workerData } = require("node:worker_threads");
  const Database = require("better-sqlite3");
  const file = new Database(workerData.file);
  file.exec("PRAGMA locking_mode = " + workerData.mode + "; BEGIN IMMEDIATE; UPDATE Counter SET next = next");
  parentPort.postMessage("held");
  Atomics.wait(workerData.gate, 0, 0, 4000);
  file.exec("COMMIT");
  file.close();
`;

interface Held {
  letGo(): Promise<void>;
}

async function held(file: string, mode: "NORMAL" | "EXCLUSIVE" = "NORMAL"): Promise<Held> {
  const gate = new Int32Array(new SharedArrayBuffer(4));
  const worker = new Worker(HOLDS, { eval: true, workerData: { file, gate, mode } });
  const ended = new Promise<void>((resolve, reject) => {
    worker.once("error", reject);
    worker.once("exit", () => resolve());
  });
  await Promise.race([new Promise((resolve) => worker.once("message", resolve)), ended]);
  return {
    letGo: () => {
      Atomics.store(gate, 0, 1);
      Atomics.notify(gate, 0);
      return ended;
    },
  };
}

const count = (shop: TwoShops["a"], name: string) =>
  shop.write((tx) =>
    tx.counter.upsert({ where: { name }, create: { name, next: 1 }, update: { next: { increment: 1 } } }),
  );

// On PostgreSQL a lock is waited for by the server.
describe.runIf(!process.env.DATABASE_URL)("a write lock that another process holds", () => {
  it("holds up the writes of that shop alone: its reads, the other shop and the event loop go on", async () => {
    const told: string[] = [];
    const elsewhere = await held(shopFile(shops.a.database));
    const waiting = count(shops.a, "waited").then(() => told.push("a wrote"));
    let turns = 0;
    const turning = setInterval(() => turns++, 1);
    for (let n = 0; n < 5; n++) {
      await count(shops.b, "beside");
      await shops.b.read.counter.findMany({ orderBy: { name: "asc" } });
      await shops.a.read.counter.findMany({ orderBy: { name: "asc" } });
    }
    while (turns < 20) await new Promise((resume) => setTimeout(resume, 1));
    clearInterval(turning);
    told.push("b wrote, both read, the loop turned");
    await elsewhere.letGo();
    await waiting;
    expect(told).toEqual(["b wrote, both read, the loop turned", "a wrote"]);
    expect(await shops.a.read.counter.findUniqueOrThrow({ where: { name: "waited" } })).toMatchObject({
      next: 1,
    });
    expect(await shops.b.read.counter.findUnique({ where: { name: "waited" } })).toBeNull();
  });

  it("is waited for in order: what was asked first is written first, each once", async () => {
    const elsewhere = await held(shopFile(shops.a.database));
    const order: number[] = [];
    const writes = Array.from({ length: 5 }, () =>
      count(shops.a, "in order").then(({ next }) => order.push(next)),
    );
    await count(shops.b, "in order");
    expect(order).toEqual([]);
    await elsewhere.letGo();
    await Promise.all(writes);
    expect(order).toEqual([1, 2, 3, 4, 5]);
  });

  it("does not hold up the event loop where a whole file is locked, to readers and to whoever opens it", async () => {
    const file = shopFile(shops.a.database);
    await closeShop(shops.a.database);
    const told: string[] = [];
    const elsewhere = await held(file, "EXCLUSIVE");
    const opened = sqliteClient("shop", file, true);
    const reads = [shops.a.read, opened].map((reader) =>
      reader.counter
        .findMany({ orderBy: { name: "asc" } })
        .then((rows) => told.push(`a read ${rows.length > 0}`)),
    );
    for (let n = 0; n < 5; n++) await count(shops.b, "beside a whole file");
    told.push("b wrote");
    await elsewhere.letGo();
    await Promise.all(reads);
    expect(told).toEqual(["b wrote", "a read true", "a read true"]);
    await opened.$disconnect();
  });

  it("is given up after a while, with nothing changed, and the next write begins", async () => {
    const file = shopFile(shops.a.database);
    const writer = sqliteClient("shop", file, false);
    const other = new Database(file);
    const usual = LOCK_WAIT.mostMs;
    const make = (name: string) => (tx: Pick<typeof writer, "counter">) =>
      tx.counter.create({ data: { name, next: 1 } });
    other.exec("BEGIN IMMEDIATE");
    // Twice: the first must leave nothing behind that the second waits for.
    LOCK_WAIT.mostMs = 20;
    for (const name of ["first", "second"])
      await expect(writer.$transaction(make(name))).rejects.toMatchObject({ code: "P1008" });
    LOCK_WAIT.mostMs = usual;
    // Given up by the client while it still waits for the lock.
    await expect(writer.$transaction(make("third"), { maxWait: 20 })).rejects.toMatchObject({
      code: "P2028",
    });
    other.exec("COMMIT");
    other.close();
    await writer.$transaction(make("after all"));
    const there = await shops.a.read.counter.findMany({
      where: { name: { in: ["first", "second", "third", "after all"] } },
      select: { name: true },
      orderBy: { name: "asc" },
    });
    expect(there).toEqual([{ name: "after all" }]);
    await writer.$disconnect();
  });

  it("is known by what the adapter calls it: a built page has a copy of its class that no error is an instance of", () => {
    class DriverAdapterError extends Error {
      override readonly name = "DriverAdapterError";
      constructor(override readonly cause: { kind: string }) {
        super(cause.kind);
      }
    }
    expect(isLocked(new DriverAdapterError({ kind: "SocketTimeout" }))).toBe(true);
    expect(isLocked(new DriverAdapterError({ kind: "sqlite" }))).toBe(false);
    expect(isLocked(new Error("SocketTimeout"))).toBe(false);
  });

  it("is told of as a busy shop, in words", async () => {
    const other = new Database(shopFile(shops.a.database));
    other.exec("BEGIN IMMEDIATE");
    const usual = LOCK_WAIT.mostMs;
    LOCK_WAIT.mostMs = 5;
    await expect(count(shops.a, "too late")).rejects.toMatchObject({
      name: "Refusal",
      message: "The shop's database is busy and nothing was changed.",
    });
    LOCK_WAIT.mostMs = usual;
    other.close();
    expect(await count(shops.a, "in time")).toMatchObject({ next: 1 });
    expect(await shops.a.read.counter.findUnique({ where: { name: "too late" } })).toBeNull();
  });
});
