import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { sweepUnfinished } from "@/lib/data/people/createShop";
import { askForSample, removeSample, takeSampleToMake } from "@/lib/data/people/sampleShop";
import { closeDirectory, directory } from "@/lib/db/directory";
import { dataFolder, postgresUrl } from "@/lib/db/folders";
import { checkShops, createShopDatabase, migrateAll } from "@/lib/db/migrate";
import { closePool, pool } from "@/lib/db/pools";
import { inPostgres } from "@/lib/db/postgres";
import { forgetServers, serverFault, whileUsable } from "@/lib/db/serverFaults";
import { demandAddress } from "@/lib/db/servers";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { faultOf, forgetFaults, ShopShut, shopFaults } from "@/lib/db/shopFaults";
import { createSchema } from "@/lib/db/shopSchema";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { orShut } from "@/lib/gate/shut";
import { folderStore } from "@/lib/outside/fileStore";
import { eachShop } from "@/lib/server/eachShop";
import { eraseWhole } from "@/lib/server/moving/eraseRound";
import { exportShop } from "@/lib/server/moving/exportShop";
import { importShop } from "@/lib/server/moving/importShop";
import { runCommand } from "../support/commands";
import { allRows } from "../support/moved";
import { nameServers } from "../support/ownDatabase";
import { isOn, openOn, schemasOn, whileSilent, withMute } from "../support/servers";

const NOW = new Date("2026-11-25T00:30:00Z");
const folder = mkdtempSync(join(tmpdir(), "throttlewright-servers-"));

/** As after a start: no connection is open. */
async function closeAll(): Promise<void> {
  await closeShops();
  await closeDirectory();
  await closePool();
}

describe.runIf(postgresUrl())("shops on two PostgreSQL servers (npm run test:postgres)", () => {
  let own: ShopHandle & { readonly shopId: string };
  let far: ShopHandle & { readonly shopId: string };
  const bays = (shop: ShopHandle) => orShut(shop, async () => handleFor(shop, SYSTEM, NOW).read.bay.count());
  const placed = (shop: ShopHandle, server: string) =>
    directory().write((tx) => tx.shop.updateMany({ where: { database: shop.database }, data: { server } }));

  beforeAll(async () => {
    reconfigure({ DATA_DIR: folder, DEMO: "off" });
    await nameServers("b");
    await migrateAll();
    own = await openOn("", "saltpan");
    far = await openOn("b", "fjellrev");
  }, 120_000);
  afterEach(() => {
    forgetFaults();
    forgetServers();
  });
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    rmSync(folder, { recursive: true, force: true });
  });

  it("are each made on the server that NEW_SHOPS_ON names, and the directory says which", async () => {
    expect(
      await directory().read.shop.findMany({
        select: { slug: true, server: true },
        orderBy: { slug: "asc" },
      }),
    ).toEqual([
      { slug: "fjellrev", server: "b" },
      { slug: "saltpan", server: "" },
    ]);
    expect([await isOn("", own), await isOn("b", own)]).toEqual([true, false]);
    expect([await isOn("", far), await isOn("b", far)]).toEqual([false, true]);
    expect(await schemasOn("b", "directory")).toEqual([]);
    expect(await directory().read.shopInMaking.count()).toBe(0);
  });

  it("see nothing of each other, also where their schemas bear one name", async () => {
    const names = ["twin", "twin"] as const;
    for (const server of ["", "b"]) await createSchema(demandAddress(server).direct, names[0]);
    const twin = (server: string) =>
      handleFor({ slug: `twin${server}`, database: "twin", server }, SYSTEM, NOW);
    // A process holds one of a name; the directory gives none twice.
    await twin("").write((tx) => tx.bay.create({ data: { name: "Own" }, select: { id: true } }));
    await closeShops();
    expect(await twin("b").read.bay.count()).toBe(0);
    await closeShops();
    expect(await twin("").read.bay.findMany({ select: { name: true }, orderBy: { id: "asc" } })).toEqual([
      { name: "Own" },
    ]);
    await far.write((tx) => tx.bay.create({ data: { name: "Lift two" }, select: { id: true } }));
    expect([await own.read.bay.count(), await far.read.bay.count()]).toEqual([1, 2]);
    await closeShops();
  });

  it("are written one at a time, by the lock of their own server", async () => {
    const add = (shop: ShopHandle, n: number) =>
      shop.write(async (tx) => {
        const count = await tx.bay.count();
        await tx.bay.create({ data: { name: `${n} after ${count}` }, select: { id: true } });
        return count;
      });
    const counts = await Promise.all([1, 2, 3, 4].map((n) => add(far, n)));
    expect(new Set(counts).size).toBe(4);
  });

  it("are read by connections of their own server, which are closed with all others", async () => {
    const databaseOf = async (server: string) =>
      (await pool(server, "read").query<{ name: string }>("SELECT current_database() AS name")).rows[0]?.name;
    const [here, there] = [pool("", "read"), pool("b", "read")];
    expect(await databaseOf("b")).not.toBe(await databaseOf(""));
    expect([pool("", "read"), pool("b", "read")]).toEqual([here, there]);
    await expect(there.query(`INSERT INTO "${far.database}"."Bay" ("name") VALUES ('x')`)).rejects.toThrow(
      /read-only/,
    );
    expect([here.totalCount, pool("b", "write").totalCount].every((count) => count > 0)).toBe(true);
    await closeAll();
    expect([here.ended, there.ended, here.totalCount, there.totalCount]).toEqual([true, true, 0, 0]);
    expect(await bays(far)).toBeGreaterThan(0);
  });

  it("are brought up to date wherever they are", async () => {
    expect(await runCommand("lib/db/cli/migrate.ts", [])).toMatchObject({
      code: 0,
      text: expect.stringContaining("All databases are up to date."),
    });
    const [last] = (
      await inPostgres(demandAddress("b").direct, (client) =>
        client.query(
          `SELECT count(*)::int AS n FROM "${far.database}"."_prisma_migrations" WHERE finished_at IS NOT NULL`,
        ),
      )
    ).rows;
    expect(last.n).toBeGreaterThan(20);
  });

  it("go through an export and come in again on the server that new shops go to", async () => {
    const file = join(dataFolder(), "far.zip");
    const before = await allRows(far.database, "b");
    await exportShop({ ...far, name: "Shop fjellrev" }, file, NOW);
    reconfigure({ NEW_SHOPS_ON: "b" });
    try {
      const made = await importShop(file, { slug: "far-again", owner: "owner@fjellrev.example" }, NOW);
      expect(made.server).toBe("b");
      expect([await isOn("", made), await isOn("b", made)]).toEqual([false, true]);
      const after = await allRows(made.database, "b");
      expect(after.Bay).toEqual(before.Bay);
      expect(after.Part).toEqual(before.Part);
      await eraseWhole(made.id, NOW);
      expect(await isOn("b", made)).toBe(false);
    } finally {
      reconfigure({ NEW_SHOPS_ON: undefined });
    }
    expect(await allRows(far.database, "b")).toEqual(before);
  });

  it("are exported by the command, too", async () => {
    const file = join(dataFolder(), "by-command.zip");
    expect(await runCommand("lib/server/exportShop.ts", ["fjellrev", file])).toMatchObject({ code: 0 });
  });

  it("are erased on their server, and what a move left of one on another goes with it", async () => {
    const gone = await openOn("b", "gone");
    await createSchema(demandAddress("").direct, gone.database);
    await folderStore(gone.files).put(`${"a".repeat(32)}.jpg`, Buffer.from("picture"));
    await eraseWhole(gone.shopId, NOW);
    expect([await isOn("", gone), await isOn("b", gone)]).toEqual([false, false]);
    expect(await folderStore(gone.files).list()).toEqual([]);
    expect(await directory().read.shopInMaking.count()).toBe(0);
    expect([await isOn("", own), await isOn("b", far)]).toEqual([true, true]);
  });

  it("are erased where they are although another server is silent, which is looked at once it answers", async () => {
    const gone = await openOn("b", "gone-too");
    await whileSilent("c", async () => {
      expect(await eraseWhole(gone.shopId, NOW)).toBe(false);
      expect(await isOn("b", gone)).toBe(false);
      expect(await directory().read.shop.count({ where: { id: gone.shopId } })).toBe(0);
      expect(await directory().read.shopInMaking.count({ where: { database: gone.database } })).toBe(1);
    });
    expect(await sweepUnfinished(new Date(NOW.getTime() + 2 * 3_600_000))).toBe(1);
    expect(await directory().read.shopInMaking.count()).toBe(0);
  });

  it("leave nothing on their server where their making was cut off", async () => {
    const cut = { database: "shop_0123456789abcdef", server: "b" };
    await createShopDatabase(cut);
    await directory().write((tx) =>
      tx.shopInMaking.create({ data: { ...cut, startedAt: NOW }, select: { database: true } }),
    );
    expect(await sweepUnfinished(new Date(NOW.getTime() + 2 * 3_600_000))).toBe(1);
    expect(await isOn("b", cut)).toBe(false);
    expect(await directory().read.shopInMaking.count()).toBe(0);
  });

  it("may be samples, which are removed where they are", async () => {
    const sample = await openOn("b", "tried");
    const [{ personId }] = (await directory().read.membership.findMany({
      where: { shopId: sample.shopId },
      select: { personId: true },
      orderBy: { id: "asc" },
    })) as [{ personId: string }];
    await askForSample(personId, NOW);
    await takeSampleToMake("one", NOW);
    await directory().write(async (tx) => {
      await tx.shop.update({ where: { id: sample.shopId }, data: { sample: true }, select: { id: true } });
      await tx.sampleShop.updateMany({ where: { personId }, data: { shopId: sample.shopId, madeBy: null } });
    });
    await removeSample(personId, NOW);
    expect(await isOn("b", sample)).toBe(false);
  });

  it("are shut alone where the settings do not name their server, and all others go on", async () => {
    await placed(far, "gone");
    try {
      const lost = { ...far, server: "gone" };
      await closeShops();
      expect(await bays(lost)).toBe("shut");
      expect(() => handleFor(lost, SYSTEM, NOW)).toThrow(ShopShut);
      expect(faultOf(far.database)).toMatchObject({
        slug: "fjellrev",
        place: `schema ${far.database} on gone`,
        reason: "Its database server gone is not in the settings (DATABASE_SERVERS).",
        lasting: true,
      });
      expect(await bays(own)).toBeGreaterThan(0);
      forgetFaults();
      await checkShops();
      expect(shopFaults().map(({ slug }) => slug)).toEqual(["fjellrev"]);
      const told = await runCommand("lib/db/cli/migrate.ts", []);
      expect(told).toMatchObject({ code: 1 });
      expect(told.text).toContain("Shop fjellrev cannot be opened");
      expect(told.text).toContain("All others are up to date.");
    } finally {
      await placed(far, "b");
    }
  });

  it("are shut alone while their server does not answer, and open again once it does", async () => {
    await closeAll();
    await whileSilent("b", async () => {
      expect(await bays(far)).toBe("shut");
      expect(faultOf(far.database)).toMatchObject({
        reason: "Its database server b does not answer.",
        lasting: false,
      });
      expect(await bays(own)).toBeGreaterThan(0);
      forgetFaults();
      await checkShops();
      await migrateAll();
      expect(shopFaults().map(({ slug }) => slug)).toEqual(["fjellrev"]);
    });
    forgetFaults();
    expect(await bays(far)).toBeGreaterThan(0);
  });

  it("are shut alone by a server that takes connections and says nothing, once for all who ask", async () => {
    await closeAll();
    await withMute((address, taken) =>
      whileSilent(
        "b",
        async () => {
          const asked = await Promise.all([bays(far), bays(far), serverFault("b"), bays(own)]);
          expect(asked.slice(0, 2)).toEqual(["shut", "shut"]);
          expect(asked[2]).toMatchObject({ reason: "Its database server b does not answer." });
          expect(asked[3]).toBeGreaterThan(0);
          await checkShops();
          expect(await bays(far)).toBe("shut");
          expect(taken()).toBe(1);
        },
        address,
      ),
    );
    forgetFaults();
  });

  it("are not waited for where their server is gone without a word of it: what was asked is left to itself", async () => {
    const never = () => new Promise<never>(() => undefined);
    await closeAll();
    expect(await serverFault("b")).toBeNull();
    const waited = whileUsable("b", never);
    await withMute((address) =>
      whileSilent(
        "b",
        async () => {
          expect(await waited).toEqual({
            fault: { reason: "Its database server b does not answer.", lasting: false },
          });
        },
        address,
      ),
    );
    // As long as it answers, what takes long is waited for.
    const long = () => new Promise<string>((resume) => setTimeout(() => resume("done"), 6_000));
    expect(await whileUsable("b", long)).toEqual({ answer: "done" });
    await expect(whileUsable("b", () => Promise.reject(new Error("own fault")))).rejects.toThrow("own fault");
  }, 60_000);

  it("are shut by the first failure where their server goes away while they are open, and open again", async () => {
    expect(await bays(far)).toBeGreaterThan(0);
    const name = new URL(demandAddress("b").direct).pathname.slice(1);
    const lets = (anybody: boolean) =>
      inPostgres(demandAddress("").direct, async (client) => {
        await client.query(`ALTER DATABASE "${name}" ALLOW_CONNECTIONS ${anybody}`);
        if (!anybody)
          await client.query("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = $1", [
            name,
          ]);
      });
    await lets(false);
    try {
      // That it answered some seconds ago is known, and does not count after a failure.
      await new Promise((resume) => setTimeout(resume, 500));
      expect(await bays(far)).toBe("shut");
      expect(faultOf(far.database)?.reason).toMatch(
        /^Its database server b (cannot be used|does not answer)\.$/,
      );
      expect(await bays(own)).toBeGreaterThan(0);
    } finally {
      await lets(true);
    }
    // A pooler tries a server that was away again after some seconds.
    const again = () => {
      forgetServers();
      forgetFaults();
      return bays(far);
    };
    await expect.poll(again, { timeout: 60_000, interval: 1_000 }).toEqual(expect.any(Number));
  }, 120_000);

  it("are passed over by rounds while their server is silent, and the rounds go through the others", async () => {
    await closeAll();
    const seen: string[] = [];
    const work = {
      name: "noting",
      wanted: async () => true,
      next: async () => null,
      run: async (shop: ShopHandle) => {
        seen.push(shop.slug);
        return shop.slug;
      },
    };
    await whileSilent("b", async () => {
      expect(await eachShop(work, () => NOW)).toMatchObject({ failed: 1, done: ["saltpan"] });
    });
    forgetFaults();
    expect(await eachShop(work, () => NOW)).toMatchObject({ failed: 0, done: ["fjellrev"] });
    expect(seen).toEqual(["saltpan", "fjellrev"]);
  });

  it("are not opened while the server for new ones is silent; nothing is begun, and no address is told", async () => {
    await closeAll();
    await whileSilent("b", async () => {
      const tried = openOn("b", "too-soon");
      await expect(tried).rejects.toMatchObject({
        kind: "busy",
        message: "No shop can be opened just now. Nothing was opened.",
      });
    });
    expect(await directory().read.shopInMaking.count()).toBe(0);
    expect(await directory().read.shop.count({ where: { slug: "too-soon" } })).toBe(0);
  });

  it("are cleared away on their own server while another is silent; what is left there waits", async () => {
    const [here, there] = [
      { database: "shop_00000000000000aa", server: "" },
      { database: "shop_00000000000000bb", server: "b" },
    ];
    for (const place of [here, there]) {
      await createShopDatabase(place);
      await directory().write((tx) =>
        tx.shopInMaking.create({ data: { ...place, startedAt: NOW }, select: { database: true } }),
      );
    }
    const later = new Date(NOW.getTime() + 2 * 3_600_000);
    await closeAll();
    await whileSilent("b", async () => {
      const failed: string[] = [];
      await sweepUnfinished(later, (database) => failed.push(database));
      // Its own schema is gone; whether a move left something of it on the silent one is not known yet.
      expect(failed).toEqual([here.database]);
      expect(await isOn("", here)).toBe(false);
    });
    expect(await isOn("b", there)).toBe(true);
    expect(await sweepUnfinished(later)).toBe(2);
    expect([await isOn("", here), await isOn("b", there)]).toEqual([false, false]);
    expect(await directory().read.shopInMaking.count()).toBe(0);
  });

  it("name the setting, and never the password, where an address of a server is wrong", async () => {
    await whileSilent("b", async () => {
      const told = await runCommand("lib/server/exportShop.ts", [
        "fjellrev",
        join(dataFolder(), "never.zip"),
      ]);
      expect(told.code).toBe(1);
      expect(told.text).toContain("The PostgreSQL server at 127.0.0.1:1 does not answer.");
      expect(told.text).not.toContain("hunter2");
    });
  });
});
