import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { missingSql } from "@/lib/db/cli/newMigration";
import type { ShopClient } from "@/lib/db/clients";
import { postgresClient } from "@/lib/db/clients";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { createShopDatabase, migrateAll } from "@/lib/db/migrate";
import { applyMigrations } from "@/lib/db/migrations";
import { closePool } from "@/lib/db/pools";
import { inPostgres } from "@/lib/db/postgres";
import { nextNumber } from "@/lib/db/record";
import { closeShop, type ShopTx, shopStore } from "@/lib/db/shop";
import { postgresStore } from "@/lib/db/store";
import { oneJob } from "../support/oneJob";
import { type TwoShops, twoShops } from "../support/shops";

const url = postgresUrl() ?? "";

const pause = (ms: number) => new Promise((resume) => setTimeout(resume, ms));

/** What is refused before it happens in a shop's SQLite file. */
function guardsOfFile(file: string): { name: string; guard: string }[] {
  const raw = new Database(file, { readonly: true });
  try {
    const rows = raw
      .prepare("SELECT name, tbl_name AS noun, sql FROM sqlite_master WHERE type = 'trigger'")
      .all() as { name: string; noun: string; sql: string }[];
    return rows.flatMap(({ name, noun, sql }) => {
      const [, act] = /\bBEFORE\s+(INSERT|UPDATE|DELETE)\b/.exec(sql) ?? [];
      return act ? [{ name, guard: `${noun} ${act}` }] : [];
    });
  } finally {
    raw.close();
  }
}

describe.runIf(url)("on PostgreSQL (npm run test:postgres)", () => {
  let shops: TwoShops;
  beforeAll(async () => {
    shops = await twoShops();
  });
  afterAll(async () => {
    await closeDirectory();
    await closePool();
  });

  const sql = (text: string) => inPostgres(url, (client) => client.query(text));
  const inA = (text: string) => sql(`SET search_path TO "${shops.a.slug}"; ${text}`);

  describe("migrations", () => {
    it("leave a schema that equals the Prisma schema, for both kinds of database", async () => {
      expect(await missingSql("shop", "postgresql", url)).toBe("");
      expect(await missingSql("directory", "postgresql", url)).toBe("");
    });

    it("bring the directory up to date, can be repeated, and let several processes start at once", async () => {
      await sql("DROP SCHEMA directory CASCADE");
      const told: string[] = [];
      await Promise.all([migrateAll((line) => told.push(line)), migrateAll((line) => told.push(line))]);
      await migrateAll((line) => told.push(line));
      expect(told.filter((line) => line.startsWith("directory"))).toHaveLength(1);
      expect(await directory().read.shop.findMany({ orderBy: { id: "asc" } })).toEqual([]);
    });

    it("apply nothing to a shop that has them all", async () => {
      expect(await applyMigrations("shop", { provider: "postgresql", url, schema: shops.a.slug })).toEqual(
        [],
      );
    });

    it("refuse a database of a newer version and leave it as it was", async () => {
      await migrateAll();
      const future = `INSERT INTO directory."_prisma_migrations" (id, checksum, finished_at, migration_name, started_at, applied_steps_count)
        VALUES ('x', 'x', '2030-01-01', '9999_from_the_future', '2030-01-01', 1)`;
      await sql(future);
      try {
        await expect(migrateAll()).rejects.toThrow(/newer Throttlewright.*9999_from_the_future/);
      } finally {
        await sql(`DELETE FROM directory."_prisma_migrations" WHERE id = 'x'`);
      }
    });

    it("do not make a shop's schema twice", async () => {
      await expect(createShopDatabase({ database: shops.a.slug, server: "" })).rejects.toThrow(
        "exists already",
      );
    });
  });

  describe("two shops", () => {
    it("are two schemas: neither has a table in public, and each has its own types and functions", async () => {
      const { rows } =
        await sql(`SELECT nspname, count(*)::int AS tables FROM pg_class JOIN pg_namespace n ON n.oid = relnamespace
        WHERE relname = 'Job' AND relkind = 'r' AND nspname IN ('public', '${shops.a.slug}', '${shops.b.slug}') GROUP BY 1 ORDER BY 1`);
      expect(rows).toEqual([shops.a.slug, shops.b.slug].sort().map((nspname) => ({ nspname, tables: 1 })));
      const functions = await sql(
        `SELECT count(*)::int AS n FROM pg_proc WHERE pronamespace = 'public'::regnamespace`,
      );
      expect(functions.rows).toEqual([{ n: 0 }]);
    });

    it("hold their own rows under the same ids", async () => {
      const a = await oneJob(shops.a);
      const b = await oneJob(shops.b);
      expect(a.jobId).toBe(b.jobId);
      await shops.a.write((tx) => tx.job.update({ where: { id: a.jobId }, data: { title: "Canary of A" } }));
      expect(
        await shops.b.read.job.findFirst({ where: { title: "Canary of A" }, orderBy: { id: "asc" } }),
      ).toBeNull();
    });
  });

  describe("writing", () => {
    /** As another process would write, and without the shop's turn: only the second tries can carry it. */
    const another = () => {
      const client = postgresClient("shop", "", shops.a.slug, "write");
      return postgresStore<ShopClient, ShopTx>(client, client);
    };

    /** Answers once as many have come as there are to meet; whoever comes later goes on at once. */
    const meeting = (many: number) => {
      let [there, open] = [0, () => {}];
      const met = new Promise<void>((resume) => {
        open = resume;
      });
      return () => {
        if (++there === many) open();
        return met;
      };
    };

    it("sees a conflict of two serialisable transactions for what it is, and does the later again", async () => {
      await shops.a.write((tx) => tx.counter.create({ data: { name: "contended", next: 0 } }));
      let runs = 0;
      const allHaveRead = meeting(3);
      const add = () =>
        another().write(async (tx) => {
          runs++;
          const { next } = await tx.counter.findUniqueOrThrow({
            where: { name: "contended" },
            select: { next: true },
          });
          await allHaveRead();
          await tx.counter.update({ where: { name: "contended" }, data: { next: next + 1 } });
        });
      await Promise.all([add(), add(), add()]);
      const after = await shops.a.read.counter.findUnique({ where: { name: "contended" } });
      expect(after?.next).toBe(3);
      expect(runs).toBeGreaterThan(3);
    });

    it("sees a write skew, which the server finds only at the end, and does the later again", async () => {
      await shops.a.write((tx) =>
        tx.counter.createMany({
          data: [
            { name: "skew 1", next: 1 },
            { name: "skew 2", next: 1 },
          ],
        }),
      );
      const bothHaveRead = meeting(2);
      // Each may give up its own one only while both are there.
      const giveUp = (name: string) =>
        another().write(async (tx) => {
          const there = await tx.counter.findMany({
            where: { name: { startsWith: "skew" }, next: 1 },
            orderBy: { name: "asc" },
          });
          await bothHaveRead();
          if (there.length === 2) await tx.counter.update({ where: { name }, data: { next: 0 } });
          return there.length;
        });
      const saw = await Promise.all([giveUp("skew 1"), giveUp("skew 2")]);
      expect(saw.sort()).toEqual([1, 2]);
    });

    it("gets out of a deadlock by doing one of the two again", async () => {
      await shops.a.write((tx) =>
        tx.counter.createMany({
          data: [
            { name: "left", next: 0 },
            { name: "right", next: 0 },
          ],
        }),
      );
      const eachHoldsOne = meeting(2);
      const both = (first: string, second: string) =>
        another().write(async (tx) => {
          await tx.counter.update({ where: { name: first }, data: { next: { increment: 1 } } });
          await eachHoldsOne();
          await tx.counter.update({ where: { name: second }, data: { next: { increment: 1 } } });
        });
      await Promise.all([both("left", "right"), both("right", "left")]);
      const rows = await shops.a.read.counter.findMany({
        where: { name: { in: ["left", "right"] } },
        orderBy: { name: "asc" },
      });
      expect(rows.map((row) => row.next)).toEqual([2, 2]);
    });

    it("gives up after its tries with a refusal, and nothing is changed", async () => {
      const always = another().write(async (tx) => {
        await tx.counter.create({ data: { name: "given up", next: 1 } });
        throw Object.assign(new Error("could not serialize access"), { code: "P2034" });
      });
      await expect(always).rejects.toThrow("busy and nothing was changed");
      expect(await shops.a.read.counter.findUnique({ where: { name: "given up" } })).toBeNull();
    });

    it("takes turns across connections: what a waiting transaction reads is what the one before it left", async () => {
      await shops.a.write((tx) => nextNumber(tx, "turns", 1));
      const order: string[] = [];
      await inPostgres(url, async (other) => {
        await other.query(
          `BEGIN; LOCK TABLE "${shops.a.slug}"."_prisma_migrations" IN SHARE ROW EXCLUSIVE MODE`,
        );
        const waiting = shops.a
          .write((tx) => nextNumber(tx, "turns", 1))
          .then((n) => order.push(`then ${n}`));
        await pause(150);
        order.push("first");
        await other.query(
          `UPDATE "${shops.a.slug}"."Counter" SET "next" = 50 WHERE "name" = 'turns'; COMMIT`,
        );
        await waiting;
      });
      expect(order).toEqual(["first", "then 50"]);
    });

    it("is bounded while it waits or stands still, and leaves nothing on a session that a pooler would hand on", async () => {
      const asked = `SELECT current_setting('lock_timeout') || ' ' || current_setting('idle_in_transaction_session_timeout') AS bounds`;
      const client = postgresClient("shop", "", shops.a.slug, "write");
      const bounds = await client.$transaction((tx) => tx.$queryRawUnsafe(asked));
      expect(bounds).toEqual([{ bounds: "25s 75s" }]);
      const sessions = await Promise.all(Array.from({ length: 20 }, () => client.$queryRawUnsafe(asked)));
      expect(new Set(sessions.map((rows) => JSON.stringify(rows)))).toEqual(new Set(['[{"bounds":"0 0"}]']));
    });

    it("is refused on the read connection, as the server says it, in a transaction too", async () => {
      await expect(shops.a.read.counter.create({ data: { name: "no", next: 1 } })).rejects.toThrow(
        /25006|read-only/,
      );
      const within = shops.a.read.$transaction((tx) => tx.counter.create({ data: { name: "no", next: 1 } }));
      await expect(within).rejects.toThrow(/25006|read-only/);
    });

    it("goes on after a shop was closed, on the same pool", async () => {
      await closeShop(shops.b.slug);
      expect(await shopStore(shops.b).read.bay.count()).toBe(1);
    });
  });

  describe("the guards", () => {
    it("keep every ledger append-only, against update, delete and truncate", async () => {
      await inA(`INSERT INTO "Part" ("code", "name", "kind", "searchKey", "createdAt") VALUES ('G-1', 'Jet', 'jet', 'jet', now());
        INSERT INTO "Move" ("partId", "kind", "quantityMilli", "at") SELECT "id", 'opening', 1000, now() FROM "Part" WHERE "code" = 'G-1'`);
      for (const act of [`UPDATE "Move" SET "why" = 'x'`, `DELETE FROM "Move"`, `TRUNCATE "Move"`])
        await expect(inA(act)).rejects.toThrow("Move only grows");
    });

    it("stand wherever SQLite has them, table by table and act by act", async () => {
      const { rows } = await sql(`SELECT event_object_table || ' ' || event_manipulation AS guard
        FROM information_schema.triggers WHERE trigger_schema = '${shops.a.slug}' AND action_timing = 'BEFORE'`);
      const here = new Set(rows.map((row) => row.guard));
      // A state's words are an enum here, where SQLite needs a trigger.
      const { rows: enums } = await sql(`SELECT table_name || '_' || column_name AS words
        FROM information_schema.columns WHERE table_schema = '${shops.a.slug}' AND udt_schema = '${shops.a.slug}'`);
      const worded = new Set(enums.map((row) => row.words));
      const missing = guardsOfFile(inject("shopTemplate")).filter(
        ({ name, guard }) => !here.has(guard) && !worded.has(name.replace(/_words_(insert|update)$/, "")),
      );
      expect(missing).toEqual([]);
    });

    it("keep every table that only grows from being emptied at once, which SQLite cannot do", async () => {
      const { rows } =
        await sql(`SELECT c.relname AS table FROM pg_trigger t JOIN pg_class c ON c.oid = tgrelid
        WHERE relnamespace = '"${shops.a.slug}"'::regnamespace AND NOT tgisinternal GROUP BY c.relname
        HAVING bool_or(tgname LIKE '%\\_only\\_grows%') AND NOT bool_or(tgtype & 32 = 32) ORDER BY 1`);
      expect(rows).toEqual([]);
    });

    it("refuse a state that is not one of the schema's words", async () => {
      await expect(
        inA(
          `INSERT INTO "Part" ("code", "name", "kind", "searchKey", "createdAt") VALUES ('x', 'x', 'teapot', 'x', now())`,
        ),
      ).rejects.toThrow(/invalid input value for enum .*teapot/);
    });

    it("let nothing an issued invoice says be changed or removed, but its payments be counted", async () => {
      const { jobId, customerId } = await oneJob(shops.a);
      await inA(`INSERT INTO "Invoice" ("jobId", "customerId", "createdAt", "frozen", "hash", "grossMinor")
        VALUES (${jobId}, ${customerId}, now(), '{"b": 1, "a": 2}', 'h', 100)`);
      const one = `WHERE "jobId" = ${jobId}`;
      await inA(
        `UPDATE "Invoice" SET "grossMinor" = 200 ${one}; UPDATE "Invoice" SET "state" = 'issued', "number" = 9001 ${one}`,
      );
      for (const change of [
        `"grossMinor" = 1`,
        `"frozen" = '{}'`,
        `"frozen" = NULL`,
        `"number" = 9002`,
        `"state" = 'draft'`,
        `"hash" = 'other'`,
      ])
        await expect(inA(`UPDATE "Invoice" SET ${change} ${one}`)).rejects.toThrow(
          "An issued document never changes",
        );
      await expect(inA(`DELETE FROM "Invoice" ${one}`)).rejects.toThrow("An issued document never goes");
      await inA(`UPDATE "Invoice" SET "paidMinor" = 200, "frozen" = '{"a": 2, "b": 1}' ${one}`);
      const { rows } = await sql(`SELECT "paidMinor" FROM "${shops.a.slug}"."Invoice" ${one}`);
      expect(rows).toEqual([{ paidMinor: 200 }]);
    });

    it("keep frozen quotes and published recipes as they are", async () => {
      await oneJob(shops.a);
      await inA(`UPDATE "QuoteRevision" SET "frozen" = '{"x": 1}'`);
      await expect(inA(`UPDATE "QuoteRevision" SET "frozen" = '{"x": 2}'`)).rejects.toThrow(
        "A frozen revision never changes",
      );
      await expect(inA(`UPDATE "QuoteRevision" SET "choices" = '["more"]'`)).rejects.toThrow(
        "A frozen revision never changes",
      );
      await inA(`UPDATE "PackageRevision" SET "state" = 'published'`);
      await expect(inA(`UPDATE "PackageRevision" SET "recipe" = '{"y": 2}'`)).rejects.toThrow(
        "A published revision never changes",
      );
    });

    it("never reserve more of a part than there is and comes", async () => {
      const part = `WHERE "code" = 'G-1'`;
      await inA(
        `UPDATE "Part" SET "onHandMilli" = 1000, "onOrderMilli" = 500, "reservedMilli" = 1500 ${part}`,
      );
      for (const change of [
        `"reservedMilli" = 1501`,
        `"reservedMilli" = -1`,
        `"onHandMilli" = -1, "reservedMilli" = 0`,
      ])
        await expect(inA(`UPDATE "Part" SET ${change} ${part}`)).rejects.toThrow("beyond what there is");
    });

    it("let one time entry run per person, and time go forward", async () => {
      const { jobId } = await oneJob(shops.a);
      const staffId = shops.a.by.staffId as number;
      const begin = `INSERT INTO "TimeEntry" ("staffId", "jobId", "startedAt") VALUES (${staffId}, ${jobId}, '2026-11-25T00:00:00Z')`;
      await inA(begin);
      await expect(inA(begin)).rejects.toThrow("has a running time entry");
      await expect(
        inA(`UPDATE "TimeEntry" SET "endedAt" = '2026-11-24T00:00:00Z' WHERE "jobId" = ${jobId}`),
      ).rejects.toThrow("ends after it starts");
      await inA(`UPDATE "TimeEntry" SET "endedAt" = '2026-11-25T01:00:00Z' WHERE "jobId" = ${jobId}`);
      await inA(begin);
      await inA(`UPDATE "TimeEntry" SET "endedAt" = '2026-11-25T02:00:00Z' WHERE "endedAt" IS NULL`);
    });
  });
});
