import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { askerWithin, sharedClient } from "@/lib/db/sharedClient";
import { closeShop, type ShopHandle, type ShopTx, shopStore } from "@/lib/db/shop";
import { twoShops } from "../support/shops";
import { FULL } from "../support/size";

const NUMBERS = 6;
let shops: ShopHandle[];
/** Prisma's clients themselves, held over every closing; a handle's reads join what a request asks at once. */
let plain: ShopHandle["read"][];

beforeAll(async () => {
  const [first, second] = [await twoShops(), await twoShops()];
  shops = [first.a, first.b, second.a];
  plain = shops.map((shop) => shopStore(shop).read);
  for (const [at, shop] of shops.entries())
    await shop.write((tx) =>
      tx.counter.createMany({
        data: Array.from({ length: NUMBERS }, (_, n) => ({ name: `n${n}`, next: at * 1000 + n })),
      }),
    );
});

type Reader = Pick<ShopTx, "counter">;
const one = (db: Reader, n: number) =>
  db.counter.findUnique({ where: { name: `n${n}` }, select: { name: true, next: true } });
const wanted = (at: number, n: number) => ({ name: `n${n}`, next: at * 1000 + n });
const bay = (tx: Pick<ShopTx, "bay">, name: string) =>
  tx.bay.create({ data: { name }, select: { id: true } });
/** The same past Prisma's client; on PostgreSQL a table is named with its schema, and values are counted. */
const plainBay = async (tx: ShopTx, shop: ShopHandle, name: string) => {
  const [table, value] = process.env.DATABASE_URL ? [`"${shop.database}"."Bay"`, "$1"] : [`"Bay"`, "?"];
  const { rows, change } = askerWithin(tx);
  const [made] = await rows(`INSERT INTO ${table} ("name") VALUES (${value}) RETURNING "name"`, [name]);
  expect(made).toEqual([name]);
  expect(await change(`UPDATE ${table} SET "name" = "name" WHERE "name" = ${value}`, [name])).toBe(1);
};
const baysOf = async (shop: ShopHandle) =>
  (await shop.read.bay.findMany({ select: { name: true }, orderBy: { name: "asc" } })).map(
    ({ name }) => name,
  );
const shopAt = (at: number) => shops[at] as ShopHandle;
const plainAt = (at: number) => plain[at] as ShopHandle["read"];
const pause = (ms: number) => new Promise((resume) => setTimeout(resume, ms));

interface Act {
  readonly at: number;
  readonly n: number;
  readonly what: "one" | "several" | "array" | "many" | "write" | "plain" | "nested" | "broken" | "close";
}

let made = 0;

/** Does one thing in one shop, and answers the names it has left there. */
async function act({ at, n, what }: Act): Promise<string[]> {
  const shop = shopAt(at);
  const name = `of ${at}, ${++made}`;
  if (what === "one")
    expect(await Promise.all([one(shop.read, n), one(plainAt(at), n)])).toEqual([
      wanted(at, n),
      wanted(at, n),
    ]);
  if (what === "several") {
    const asked = Array.from({ length: NUMBERS }, (_, k) => one(plainAt(at), k));
    expect(await Promise.all(asked)).toEqual(asked.map((_, k) => wanted(at, k)));
  }
  if (what === "array")
    expect(await plainAt(at).$transaction([one(plainAt(at), n), one(plainAt(at), 0)])).toEqual([
      wanted(at, n),
      wanted(at, 0),
    ]);
  if (what === "many") {
    const where = { name: { in: [`n${n}`] } };
    const rows = await shop.read.counter.findMany({
      where,
      select: { name: true, next: true },
      orderBy: { name: "asc" },
    });
    expect(rows).toEqual([wanted(at, n)]);
  }
  if (what === "close") await closeShop(shop.database);
  if (what === "write")
    await shop.write(async (tx) => {
      expect(await Promise.all([one(tx, n), one(tx, 0)])).toEqual([wanted(at, n), wanted(at, 0)]);
      await bay(tx, name);
    });
  if (what === "plain")
    await shop.write(async (tx) => {
      await Promise.all([plainBay(tx, shop, name), one(tx, n)]);
    });
  if (what === "nested")
    await shop.write(async (tx) => {
      await bay(tx, name);
      const undone = tx.$transaction(async (inner) => {
        await bay(inner, `undone ${name}`);
        await plainBay(inner, shop, `undone plainly ${name}`);
        expect(await one(inner, n)).toEqual(wanted(at, n));
        throw new Error("the inner one alone");
      });
      await expect(undone).rejects.toThrow("the inner one alone");
    });
  if (what === "broken")
    await expect(
      shop.write(async (tx) => {
        await bay(tx, name);
        await plainBay(tx, shop, `plainly ${name}`);
        await one(tx, n);
        throw new Error("rolled back on purpose");
      }),
    ).rejects.toThrow("rolled back on purpose");
  return what === "write" || what === "plain" || what === "nested" ? [name] : [];
}

/** Waits for all, also where one fails: the next run must not begin beside them. */
async function all<T>(doing: readonly Promise<T>[]): Promise<T[]> {
  await Promise.allSettled(doing);
  return Promise.all(doing);
}

const ACTS = fc.array(
  fc.record({
    at: fc.nat({ max: 2 }),
    n: fc.nat({ max: NUMBERS - 1 }),
    what: fc.constantFrom<Act["what"]>(
      "one",
      "several",
      "array",
      "many",
      "write",
      "plain",
      "nested",
      "broken",
      "close",
    ),
  }),
  { minLength: 6, maxLength: 24 },
);

describe("the client that all shops share", () => {
  it("answers each shop from its own database, whatever runs beside it, in it or after it was closed", async () => {
    await fc.assert(
      fc.asyncProperty(ACTS, async (acts) => {
        const before = await Promise.all(shops.map(baysOf));
        const left = await all(acts.map(act));
        for (const [at, shop] of shops.entries()) {
          const added = acts.flatMap((each, k) => (each.at === at ? (left[k] ?? []) : []));
          expect(await baysOf(shop)).toEqual([...(before[at] ?? []), ...added].sort());
        }
      }),
      { numRuns: FULL ? 200 : 15 },
    );
  });

  it("asks in the shop that a query was made for, wherever and whenever it is awaited", async () => {
    const lazy = one(plainAt(0), 3);
    await shopAt(1).write(async (tx) => {
      const mine = one(tx, 3);
      expect(await lazy).toEqual(wanted(0, 3));
      expect(await one(plainAt(2), 3)).toEqual(wanted(2, 3));
      expect(await mine).toEqual(wanted(1, 3));
    });
  });

  it("never mixes what several shops ask in one turn of the event loop", async () => {
    const asked = await Promise.all(
      Array.from({ length: 30 }, (_, k) => one(plainAt(k % 3), Math.floor(k / 3) % NUMBERS)),
    );
    expect(asked).toEqual(asked.map((_, k) => wanted(k % 3, Math.floor(k / 3) % NUMBERS)));
  });

  it("rolls one shop back alone while the other's transaction goes on", async () => {
    const [a, b] = [shopAt(0), shopAt(1)];
    const [before, others] = [await baysOf(a), await baysOf(b)];
    const failing = a.write(async (tx) => {
      await bay(tx, "never there");
      await pause(30);
      throw new Error("rolled back on purpose");
    });
    const going = b.write(async (tx) => {
      await bay(tx, "there before");
      await pause(60);
      await bay(tx, "there after");
    });
    await expect(failing).rejects.toThrow("on purpose");
    await going;
    expect(await baysOf(a)).toEqual(before);
    expect(await baysOf(b)).toEqual([...others, "there after", "there before"].sort());
  });

  it("closes a shop after the queries that run, and the same handle opens it again", async () => {
    const shop = shopAt(2);
    const running = Array.from({ length: NUMBERS }, (_, k) =>
      plainAt(2).counter.findMany({
        where: { name: `n${k}` },
        select: { name: true, next: true },
        orderBy: { name: "asc" },
      }),
    ).map(async (query) => (await query)[0]);
    const closed = closeShop(shop.database);
    const meanwhile = one(plainAt(2), 1);
    await closed;
    expect(await meanwhile).toEqual(wanted(2, 1));
    expect(await Promise.all(running)).toEqual(running.map((_, k) => wanted(2, k)));
    expect(await one(shop.read, 5)).toEqual(wanted(2, 5));
    expect(await one(shopStore(shop).read, 5)).toEqual(wanted(2, 5));
  });

  it("refuses a transaction that has ended", async () => {
    let kept: ShopTx | undefined;
    await shopAt(0).write(async (tx) => {
      kept = tx;
      await one(tx, 0);
    });
    await expect(one(kept as ShopTx, 0)).rejects.toThrow(/has ended/);
    await expect(askerWithin(kept as ShopTx).rows("SELECT 1", [])).rejects.toThrow(/has ended/);
  });

  it("refuses a plain statement in a transaction that was ended for lasting too long, and one outside any", async () => {
    const late = plainAt(0).$transaction(
      async (tx) => {
        expect(await askerWithin(tx).rows("SELECT 1", [])).toEqual([[1]]);
        await pause(120);
        await expect(askerWithin(tx).rows("SELECT 1", [])).rejects.toThrow(/has ended/);
        await expect(askerWithin(tx).change("SELECT 1", [])).rejects.toThrow(/has ended/);
      },
      { timeout: 40 },
    );
    await expect(late).rejects.toThrow(/closed|expired/i);
    expect(await one(plainAt(0), 1)).toEqual(wanted(0, 1));
    expect(() => askerWithin(plainAt(0))).toThrow(/no transaction/);
  });

  it("refuses a release of Prisma that is built otherwise, before a database is opened", () => {
    class Otherwise {
      readonly _engine = { request: () => null };
    }
    expect(() => sharedClient(Otherwise, { provider: "sqlite", adapterName: "other" })).toThrow(
      /not built as this version expects/,
    );
  });
});
