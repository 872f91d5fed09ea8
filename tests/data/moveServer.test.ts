import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { configuration, environmentWith, reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { holdDatabase } from "@/lib/db/inUsePostgres";
import { inPostgres } from "@/lib/db/postgres";
import { demandAddress } from "@/lib/db/servers";
import { closeShops } from "@/lib/db/shop";
import { forgetFaults } from "@/lib/db/shopFaults";
import { createSchema } from "@/lib/db/shopSchema";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { folderStore } from "@/lib/outside/fileStore";
import { moveToServer, removeLeft } from "@/lib/server/moving/moveServer";
import { workOn } from "@/lib/server/moving/places";
import { runCommand } from "../support/commands";
import { allRows } from "../support/moved";
import { nameServers } from "../support/ownDatabase";
import { isOn, schemasOn, whileSilent } from "../support/servers";
import { twoWorkedShops, type WorkedShop } from "../support/workedShops";

const url = postgresUrl() ?? "";

describe.runIf(url)("moving a shop between two servers (npm run test:postgres)", () => {
  let a: WorkedShop;
  let b: WorkedShop;
  let mine: Awaited<ReturnType<typeof allRows>>;
  let others: Awaited<ReturnType<typeof allRows>>;
  const command = (...args: string[]) => runCommand("lib/server/moveShop.ts", args);
  const serverOf = async (slug: string) =>
    (await directory().read.shop.findUniqueOrThrow({ where: { slug }, select: { server: true } })).server;
  const move = (server: string) => moveToServer({ slug: a.slug, server }, a.now);

  beforeAll(async () => {
    await nameServers("b");
    ({ a, b } = await twoWorkedShops());
    [mine, others] = [await allRows(a.database), await allRows(b.database)];
  }, 120_000);
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
  });

  it("is refused in words where there is no sense or no way in it, and nothing is begun", async () => {
    expect((await command(a.slug, "--to", "postgresql", "--server", "x")).text).toContain(
      'The settings name no database server "x" (DATABASE_SERVERS).',
    );
    expect((await command(a.slug, "--to", "sqlite", "--server", "b")).text).toContain("stays on PostgreSQL");
    expect((await command(a.slug, "--to", "postgresql", "--server")).text).toContain("A server is named");
    expect((await command("nobodys", "--to", "postgresql", "--server", "b")).text).toContain(
      "There is no shop “nobodys” on PostgreSQL here.",
    );
    await expect(move("")).rejects.toThrow(/is on main already/);
    await expect(removeLeft({ slug: a.slug, server: "b" })).rejects.toThrow(/is on main, not on b/);
    await expect(removeLeft({ slug: a.slug, server: "" })).rejects.toThrow(/Nothing of .* is left/);
    const held = await holdDatabase(url);
    await expect(move("b")).rejects.toThrow(/A server, or another restore, is using this database/);
    await held.release();
    await whileSilent("b", () => expect(move("b")).rejects.toThrow(/server b cannot be used/));
    expect(await schemasOn("b", `%${a.database}`)).toEqual([]);
  });

  it("knows two names of one database for what they are, however they are written", async () => {
    const { DATABASE_SERVERS, DIRECT_DATABASE_SERVERS } = environmentWith({});
    const same = Object.assign(new URL(url), { hostname: "127.0.0.1" });
    const hosts = new Set([same.hostname, "localhost"]);
    hosts.delete(new URL(url).hostname);
    const [other] = hosts;
    const address = Object.assign(new URL(configuration().DATABASE_URL ?? ""), { hostname: other }).href;
    const direct = Object.assign(new URL(url), { hostname: other }).href;
    reconfigure({
      DATABASE_SERVERS: `same=${address}`,
      DIRECT_DATABASE_SERVERS: DIRECT_DATABASE_SERVERS && `same=${direct}`,
    });
    try {
      await expect(moveToServer({ slug: a.slug, server: "same" }, a.now)).rejects.toThrow(
        /Both names of servers lead to the same database/,
      );
      expect(await isOn("", a)).toBe(true);
    } finally {
      reconfigure({ DATABASE_SERVERS, DIRECT_DATABASE_SERVERS });
    }
  });

  it("leaves the shop where it is, and nothing on the other, where its books do not add up", async () => {
    const spoil = `UPDATE "${a.database}"."Payment" SET "amountMinor" = "amountMinor" + 1`;
    const mend = `UPDATE "${a.database}"."Payment" SET "amountMinor" = "amountMinor" - 1`;
    const guards = (how: string) => `ALTER TABLE "${a.database}"."Payment" ${how} TRIGGER USER`;
    const say = (...texts: string[]) =>
      inPostgres(url, async (client) => {
        for (const text of texts) await client.query(text);
      });
    await say(guards("DISABLE"), spoil, guards("ENABLE"));
    await expect(move("b")).rejects.toThrow(/Its books do not add up/);
    await say(guards("DISABLE"), mend, guards("ENABLE"));
    expect(await serverOf(a.slug)).toBe("");
    expect(await schemasOn("b", `%${a.database}`)).toEqual([]);
    expect(await allRows(a.database)).toEqual(mine);
  }, 60_000);

  it("carries every row, leaves its pictures and the other shop, and keeps the old schema", async () => {
    // What a move that was cut off left is in nobody's way.
    await createSchema(demandAddress("b").direct, `coming_${a.database}`);
    const told = await command(a.slug, "--to", "postgresql", "--server", "b");
    expect(told.text).toMatch(/rows are on b now, equal table by table, and its books add up/);
    expect(told.code).toBe(0);
    await closeShops();
    expect(await serverOf(a.slug)).toBe("b");
    expect(await allRows(a.database, "b")).toEqual(mine);
    expect(await allRows(a.database)).toEqual(mine);
    expect(await allRows(b.database)).toEqual(others);
    expect(await schemasOn("b", "coming%")).toEqual([]);
    expect(await folderStore(a.files).list()).toHaveLength(4);
    const there = handleFor({ ...a, server: "b" }, SYSTEM, a.now);
    await there.write((tx) => tx.bay.create({ data: { name: "On the other" }, select: { id: true } }));
    expect(await there.read.bay.count()).toBe((mine.Bay?.length ?? 0) + 1);
    await expect(
      inPostgres(demandAddress("b").direct, (client) =>
        client.query(`DELETE FROM "${a.database}"."AuditEntry"`),
      ),
    ).rejects.toThrow("only grows");
    await closeShops();
  }, 120_000);

  it("does not go back over what an earlier one left, which is removed by name, and only then", async () => {
    await expect(move("")).rejects.toThrow(/an earlier move has left it there/);
    expect(
      (await command(a.slug, "--to", "postgresql", "--server", "main", "--remove-source")).text,
    ).toContain("is on b, not on main");
    const told = await command(a.slug, "--to", "postgresql", "--server", "b", "--remove-source");
    expect(told).toMatchObject({ code: 0, text: expect.stringContaining("what was left on main is erased") });
    expect([await isOn("", a), await isOn("b", a)]).toEqual([false, true]);
    expect(await folderStore(a.files).list()).toHaveLength(4);
    const now = await allRows(a.database, "b");
    expect(now.Bay).toHaveLength((mine.Bay?.length ?? 0) + 1);

    expect((await command(a.slug, "--to", "postgresql", "--server", "main")).code).toBe(0);
    expect(await serverOf(a.slug)).toBe("");
    expect(await allRows(a.database)).toEqual(now);
    expect((await command(a.slug, "--to", "postgresql", "--server", "main", "--remove-source")).code).toBe(0);
    expect([await isOn("", a), await isOn("b", a)]).toEqual([true, false]);
    expect(await allRows(a.database)).toEqual(now);
    expect(await allRows(b.database)).toEqual(others);
  }, 120_000);

  it("waits for who writes in the shop, and is not begun while somebody does", async () => {
    const writing = inPostgres(url, async (client) => {
      await client.query(
        `BEGIN; LOCK TABLE "${a.database}"."_prisma_migrations" IN SHARE ROW EXCLUSIVE MODE`,
      );
      await client.query(`INSERT INTO "${a.database}"."Bay" ("name") VALUES ('Written meanwhile')`);
      await new Promise((resume) => setTimeout(resume, 3_000));
      await client.query("COMMIT");
    });
    await new Promise((resume) => setTimeout(resume, 300));
    await move("b");
    await writing;
    const bays = (await allRows(a.database, "b")).Bay ?? [];
    expect(bays.map(({ name }) => name)).toContain("Written meanwhile");
  }, 60_000);

  it("to SQLite and back goes from its server, and comes to the one that new shops go to", async () => {
    forgetFaults();
    const before = environmentWith({});
    await workOn("sqlite", url);
    expect(environmentWith({}).DATABASE_SERVERS).toBeUndefined();
    await workOn("postgresql", url);
    const { DATABASE_URL, DIRECT_DATABASE_URL, DATABASE_SERVERS } = environmentWith({});
    expect({ DATABASE_URL, DIRECT_DATABASE_URL, DATABASE_SERVERS }).toEqual({
      DATABASE_URL: before.DATABASE_URL,
      DIRECT_DATABASE_URL: before.DIRECT_DATABASE_URL,
      DATABASE_SERVERS: before.DATABASE_SERVERS,
    });
    const there = await allRows(a.database, "b");
    expect((await command(a.slug, "--to", "sqlite")).code).toBe(0);
    await directory().write((tx) =>
      tx.shop.update({
        where: { slug: a.slug },
        data: { slug: "former", id: "former" },
        select: { id: true },
      }),
    );
    reconfigure({ NEW_SHOPS_ON: "b" });
    const told = await command(a.slug, "--to", "postgresql");
    reconfigure({ NEW_SHOPS_ON: undefined });
    expect(told).toMatchObject({ code: 0 });
    const back = await directory().read.shop.findUniqueOrThrow({
      where: { slug: a.slug },
      select: { database: true, server: true },
    });
    expect(back.server).toBe("b");
    expect([await isOn("", back), await isOn("b", back)]).toEqual([false, true]);
    expect((await allRows(back.database, "b")).Invoice).toEqual(there.Invoice);
  }, 180_000);
});
