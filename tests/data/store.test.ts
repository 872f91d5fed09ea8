import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { configuration, reconfigure } from "@/lib/configuration/configuration";
import { PrismaClient } from "@/lib/db/generated/sqlite/shop/client";
import { createShopDatabase } from "@/lib/db/migrate";
import { applyMigrations } from "@/lib/db/migrations";
import { once, requestKey } from "@/lib/db/once";
import { nextNumber } from "@/lib/db/record";
import { openShopCount, shopStore } from "@/lib/db/shop";
import { type TwoShops, twoShops } from "../support/shops";

let shops: TwoShops;
beforeAll(async () => {
  shops = await twoShops();
});

/** What only a file can show; the same of a PostgreSQL schema is in postgres.test.ts. */
const onFiles = !process.env.DATABASE_URL;

/** One pool serves every schema on PostgreSQL, so a table is named with its own. */
const tableOf = (name: string) => (onFiles ? `"${name}"` : `"${shops.a.slug}"."${name}"`);

const pause = (ms: number) => new Promise((resume) => setTimeout(resume, ms));

describe("a shop's database", () => {
  it.runIf(onFiles)(
    "loses an acknowledged write when one client is shared without turns (the fault our store exists for)",
    async () => {
      const folder = mkdtempSync(join(tmpdir(), "throttlewright-naive-"));
      const file = join(folder, "naive.sqlite");
      await applyMigrations("shop", { provider: "sqlite", file });
      const naive = new PrismaClient({ adapter: new PrismaBetterSqlite3({ url: `file:${file}` }) });
      const failing = naive
        .$transaction(async (tx) => {
          await tx.counter.create({ data: { name: "inside", next: 1 } });
          await pause(150);
          throw new Error("rolled back on purpose");
        })
        .catch((cause: Error) => cause.message);
      await pause(50);
      const acknowledged = await naive.counter.create({ data: { name: "outside", next: 1 } });
      expect(acknowledged.name).toBe("outside");
      expect(await failing).toContain("on purpose");
      expect(await naive.counter.findUnique({ where: { name: "outside" } })).toBeNull();
      await naive.$disconnect();
      rmSync(folder, { recursive: true, force: true });
    },
  );

  it("keeps a write acknowledged beside another request's failing transaction", async () => {
    const failing = shops.a
      .write(async (tx) => {
        await tx.counter.create({ data: { name: "inside", next: 1 } });
        await pause(150);
        throw new Error("rolled back on purpose");
      })
      .catch((cause: Error) => cause.message);
    await pause(50);
    await shops.a.write((tx) => tx.counter.create({ data: { name: "outside", next: 1 } }));
    expect(await failing).toContain("on purpose");
    expect(await shops.a.read.counter.findUnique({ where: { name: "outside" } })).not.toBeNull();
    expect(await shops.a.read.counter.findUnique({ where: { name: "inside" } })).toBeNull();
  });

  it("gives 300 parallel writers 300 different numbers without a gap", async () => {
    const given = await Promise.all(
      Array.from({ length: 300 }, () => shops.a.write((tx) => nextNumber(tx, "race", 1001))),
    );
    expect([...given].sort((x, y) => x - y)).toEqual(Array.from({ length: 300 }, (_, i) => 1001 + i));
  });

  it("refuses to write on the read connection", async () => {
    await expect(shops.a.read.counter.create({ data: { name: "no", next: 1 } })).rejects.toThrow(
      /read-?only/i,
    );
  });

  it("carries out a repeated request once and answers the same", async () => {
    let runs = 0;
    const ask = () =>
      shops.a.write((tx) =>
        once(tx, shops.a, "took a number", { key: "key-12345678" }, async () => {
          runs++;
          return nextNumber(tx, "once", 5);
        }),
      );
    const answers = await Promise.all([ask(), ask(), ask()]);
    expect(answers).toEqual([5, 5, 5]);
    expect(runs).toBe(1);
  });

  it("forgets the key of a request that failed, so that it can be sent again", async () => {
    const fail = shops.a.write((tx) =>
      once(tx, shops.a, "broke", { key: "key-failing-1" }, async (): Promise<number> => {
        throw new Error("broken once");
      }),
    );
    await expect(fail).rejects.toThrow("broken once");
    const second = await shops.a.write((tx) =>
      once(tx, shops.a, "broke", { key: "key-failing-1" }, async () => 7),
    );
    expect(second).toBe(7);
  });

  it("answers a key for its own act and content alone, whatever the order of the fields", async () => {
    const ask = (act: string, input: object) =>
      shops.a.write((tx) =>
        once(tx, shops.a, act, { key: "key-bound-1", ...input }, async () => ({ made: [1, null] })),
      );
    const at = new Date("2026-11-25T00:00:00Z");
    const first = await ask("received", { quantityMilli: 10_000, at, why: undefined });
    expect(await ask("received", { at, quantityMilli: 10_000 })).toEqual(first);
    for (const [act, input] of [
      ["received", { quantityMilli: 12_000, at }],
      ["received", { quantityMilli: 10_000, at, why: "x" }],
      ["scrapped", { quantityMilli: 10_000, at }],
    ] as const)
      await expect(ask(act, input)).rejects.toMatchObject({
        kind: "repeated",
        message: expect.stringContaining("it received on 2026-11-25 at 11:30"),
        remedy: expect.stringContaining("Reload"),
      });
  });

  it("goes by what the form said, where the gate hands that on", async () => {
    const key = (content: object) => requestKey("key-gate-123", content);
    const ask = (content: object, made: number) =>
      shops.a.write((tx) => once(tx, shops.a, "booked", { key: key(content), made }, async () => made));
    expect(await ask({ day: "2026-11-26" }, 1)).toBe(1);
    // What the action made of the same form differs by the hour it was sent: it is the same request.
    expect(await ask({ day: "2026-11-26" }, 2)).toBe(1);
    await expect(ask({ day: "2026-11-27" }, 1)).rejects.toMatchObject({ kind: "repeated" });
    expect(requestKey(undefined, {})).toBeUndefined();
  });

  it("keeps no answer that would come back as another", async () => {
    const keep = (answer: object) =>
      shops.a.write((tx) => once(tx, shops.a, "kept", { key: "key-plain-12" }, async () => answer));
    for (const bad of [new Date(), new Map([[1, 2]]), { a: undefined }, [Number.NaN]])
      await expect(keep(bad)).rejects.toThrow("is not plain data");
    expect(await keep({ a: [1, "x", { b: null }] })).toEqual({ a: [1, "x", { b: null }] });
  });

  it("answers a key from before keys were bound", async () => {
    await shops.a.write((tx) =>
      tx.once.create({ data: { key: "key-former-1", at: new Date(), result: "41" } }),
    );
    const again = shops.a.write((tx) =>
      once(tx, shops.a, "took", { key: "key-former-1", n: 3 }, async () => 42),
    );
    expect(await again).toBe(41);
  });

  it("holds nothing of another shop", async () => {
    await shops.a.write((tx) => tx.bay.create({ data: { name: "Canary bay of shop A" } }));
    const names = (await shops.b.read.bay.findMany({ select: { name: true }, orderBy: { id: "asc" } })).map(
      (bay) => bay.name,
    );
    expect(names).toEqual(["Bay one"]);
  });

  it("keeps ledgers append-only in the database itself, whose own sentence says why", async () => {
    const entry = await shops.a.read.auditEntry.findFirstOrThrow({ orderBy: { id: "asc" } });
    await expect(
      shops.a.write((tx) => tx.auditEntry.update({ where: { id: entry.id }, data: { act: "rewritten" } })),
    ).rejects.toThrow("AuditEntry only grows: write a new row instead");
    await expect(shops.a.write((tx) => tx.auditEntry.delete({ where: { id: entry.id } }))).rejects.toThrow(
      "AuditEntry only grows: write a new row instead",
    );
    await expect(
      shops.a.write((tx) => tx.$executeRawUnsafe(`DELETE FROM ${tableOf("AuditEntry")}`)),
    ).rejects.toThrow("AuditEntry only grows: write a new row instead");
    expect(await shops.a.read.auditEntry.findUnique({ where: { id: entry.id } })).toEqual(entry);
  });

  it("still names a broken foreign key and a doubled key as what they are", async () => {
    const nobodys = {
      partId: 999_999,
      jobId: 999_999,
      wantedMilli: 1,
      reservedMilli: 1,
      createdAt: shops.a.now,
    };
    await expect(shops.a.write((tx) => tx.reservation.create({ data: nobodys }))).rejects.toMatchObject({
      code: "P2003",
    });
    const twice = shops.a.write(async (tx) => {
      await tx.counter.create({ data: { name: "doubled", next: 1 } });
      await tx.counter.create({ data: { name: "doubled", next: 1 } });
    });
    await expect(twice).rejects.toMatchObject({ code: "P2002" });
  });

  it("asks a kept statement anew each time: other values, nothing found, and a column added meanwhile", async () => {
    const ask = (id: number) =>
      shops.a.read.bay.findMany({ where: { id }, select: { name: true }, orderBy: { id: "asc" } });
    expect(await ask(1)).toEqual([{ name: "Bay one" }]);
    expect(await ask(999_999)).toEqual([]);
    await shops.a.write((tx) =>
      tx.$executeRawUnsafe(`ALTER TABLE ${tableOf("Bay")} ADD COLUMN "later" TEXT`),
    );
    expect(await ask(1)).toEqual([{ name: "Bay one" }]);
    await shops.a.write((tx) => tx.$executeRawUnsafe(`ALTER TABLE ${tableOf("Bay")} DROP COLUMN "later"`));
    expect(await ask(1)).toEqual([{ name: "Bay one" }]);
  });

  it.runIf(onFiles)("refuses a state that is not one of the schema's words", async () => {
    await expect(
      shops.a.write((tx) =>
        tx.$executeRawUnsafe(
          `INSERT INTO "Part" ("code","name","kind","searchKey","createdAt") VALUES ('x','x','teapot','x','2026-01-01')`,
        ),
      ),
    ).rejects.toThrow(/not one of its words/);
  });
});

describe.runIf(onFiles)("migrations of SQLite files (run without DATABASE_URL)", () => {
  const folder = mkdtempSync(join(tmpdir(), "throttlewright-migrate-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it("can be repeated, and apply nothing the second time", async () => {
    const file = join(folder, "again.sqlite");
    expect((await applyMigrations("shop", { provider: "sqlite", file })).length).toBeGreaterThan(0);
    expect(await applyMigrations("shop", { provider: "sqlite", file })).toEqual([]);
  });

  it("leave a database that equals the schema", async () => {
    const { missingSql } = await import("@/lib/db/cli/newMigration");
    expect(await missingSql("shop", "sqlite")).toBe("");
    expect(await missingSql("directory", "sqlite")).toBe("");
  });

  it("refuse a database of a newer version and leave it as it was", async () => {
    const { migrateAll } = await import("@/lib/db/migrate");
    const { DATA_DIR } = configuration();
    reconfigure({ DATA_DIR: join(folder, "newer") });
    try {
      const { mkdirSync } = await import("node:fs");
      mkdirSync(join(folder, "newer"), { recursive: true });
      const file = join(folder, "newer", "directory.sqlite");
      await applyMigrations("directory", { provider: "sqlite", file });
      const raw = new Database(file);
      raw.exec(
        `INSERT INTO "_prisma_migrations" (id, checksum, finished_at, migration_name, started_at, applied_steps_count) VALUES ('x', 'x', '2030-01-01', '9999_from_the_future', '2030-01-01', 1)`,
      );
      raw.close();
      await expect(migrateAll()).rejects.toThrow(/newer Throttlewright.*9999_from_the_future/);
    } finally {
      reconfigure({ DATA_DIR });
    }
  });
});

describe("the pool of open shops", () => {
  it("opens the same shop once and only by a name the directory could hold", () => {
    const count = openShopCount();
    expect(shopStore(shops.a)).toBe(shopStore(shops.a));
    expect(openShopCount()).toBe(count);
    expect(() => shopStore({ ...shops.a, database: "../other" })).toThrow("Not a database name");
  });

  it("stays bounded when many shops are used one after another, and a closed one answers again", async () => {
    reconfigure({ SHOPS_QUIET_MS: "0" });
    const names = Array.from({ length: 12 }, (_, n) => `pool_${process.pid}_${n}`);
    for (const name of names) {
      await createShopDatabase({ database: name, server: "" });
      await shopStore({ slug: name, database: name, server: "" }).read.counter.findMany({
        orderBy: { name: "asc" },
      });
    }
    expect(openShopCount()).toBe(configuration().SHOPS_OPEN);
    expect(await shops.b.read.bay.count()).toBe(1);
    reconfigure({ SHOPS_QUIET_MS: undefined });
  });
});
