import { appendFileSync, cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { environmentWith, reconfigure } from "@/lib/configuration/configuration";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { migrateAll } from "@/lib/db/migrate";
import { inPostgres } from "@/lib/db/postgres";
import { forgetServers } from "@/lib/db/serverFaults";
import { demandAddress } from "@/lib/db/servers";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { forgetFaults } from "@/lib/db/shopFaults";
import { createSchema } from "@/lib/db/shopSchema";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { makeBackup, manifestOf } from "@/lib/server/backup/make";
import { swap } from "@/lib/server/restore/postgres/swap";
import { runCommand } from "../support/commands";
import { nameServers } from "../support/ownDatabase";
import { isOn, openOn, schemasOn, whileSilent } from "../support/servers";

const NOW = new Date("2026-11-25T00:30:00Z");
const folder = mkdtempSync(join(tmpdir(), "throttlewright-servers-"));
const copy = join(folder, "copy");

describe.runIf(postgresUrl())("copies of shops on two servers (npm run test:postgres)", () => {
  let own: ShopHandle;
  let far: ShopHandle;
  const names = async (shop: ShopHandle) =>
    (await handleFor(shop, SYSTEM, NOW).read.bay.findMany({ select: { name: true }, orderBy: { id: "asc" } }))
      .map(({ name }) => name)
      .slice(1);
  const addBay = (shop: ShopHandle, name: string) =>
    shop.write((tx) => tx.bay.create({ data: { name }, select: { id: true } }));
  const restore = (...args: string[]) => runCommand("lib/server/restore.ts", args);
  const laid = async () => [...(await schemasOn("", "coming\\_%")), ...(await schemasOn("b", "coming\\_%"))];
  const say = (server: string, text: string) =>
    inPostgres(demandAddress(server).direct, (client) => client.query(text));

  beforeAll(async () => {
    reconfigure({ DATA_DIR: folder });
    await nameServers("b");
    await migrateAll();
    own = await openOn("", "saltpan");
    far = await openOn("b", "fjellrev");
    await addBay(own, "in the copy");
    await addBay(far, "in the copy");
    const made = await makeBackup(copy);
    expect(made.shops.map(({ slug, problems }) => [slug, problems])).toEqual(
      expect.arrayContaining([
        ["fjellrev", []],
        ["saltpan", []],
      ]),
    );
  }, 240_000);
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    rmSync(folder, { recursive: true, force: true });
  });

  it("say of each shop which server it was on", () => {
    const servers = manifestOf(copy)?.shops.map(({ slug, server, rows }) => [slug, server, rows?.Bay]);
    expect(servers?.sort()).toEqual([
      ["fjellrev", "b", 2],
      ["saltpan", "", 2],
    ]);
  });

  it("put one shop back on its server, and leave every other as it is", async () => {
    for (const shop of [own, far]) await addBay(shop, "after the copy");
    const told = await restore(copy, "--shop", "fjellrev");
    expect(told.text).toContain("fjellrev: put back, opened and checked");
    expect(told.text).toContain("(1 on b)");
    expect(told.code).toBe(0);
    expect(await names(far)).toEqual(["in the copy"]);
    expect(await names(own)).toEqual(["in the copy", "after the copy"]);
    expect(await isOn("", far)).toBe(false);
    expect(await schemasOn("b", "replaced%")).toHaveLength(1);
    expect(await laid()).toEqual([]);
    // What was put back is written like any other, with its guards.
    await addBay(far, "after the restore");
    await expect(say("b", `DELETE FROM "${far.database}"."AuditEntry"`)).rejects.toThrow("only grows");
  }, 120_000);

  it("put everything back, each shop on its server, and set aside what is on either and they do not know", async () => {
    const later = await openOn("b", "later");
    const told = await restore(copy);
    expect(told.text).toContain("fjellrev: put back, opened and checked");
    expect(told.text).toContain("saltpan: put back, opened and checked");
    expect(told.code).toBe(0);
    expect([await names(own), await names(far)]).toEqual([["in the copy"], ["in the copy"]]);
    expect(await directory().read.shop.count()).toBe(2);
    expect(await isOn("b", later)).toBe(false);
    expect(await schemasOn("b", `replaced%${later.database}`)).toHaveLength(1);
    expect(await schemasOn("", "replaced%directory")).toHaveLength(1);
    expect(await laid()).toEqual([]);
  }, 120_000);

  it("put a shop that was moved since back where it is, and with everything where it was", async () => {
    const moved = { ...far, server: "" };
    await createSchema(demandAddress("").direct, far.database);
    const placed = (server: string) =>
      directory().write((tx) => tx.shop.updateMany({ where: { slug: far.slug }, data: { server } }));
    await placed("");
    await closeShops();
    expect((await restore(copy, "--shop", "fjellrev")).code).toBe(0);
    expect(await names(moved)).toEqual(["in the copy"]);
    await addBay(moved, "where it is now");
    await closeShops();
    expect((await restore(copy)).code).toBe(0);
    await closeShops();
    expect(
      await directory().read.shop.findUnique({ where: { slug: far.slug }, select: { server: true } }),
    ).toEqual({ server: "b" });
    expect(await isOn("", far)).toBe(false);
    expect(await names(far)).toEqual(["in the copy"]);
  }, 120_000);

  it("are refused in words where the settings do not name a server, or it is silent; nothing is touched", async () => {
    const before = [await schemasOn("", "%"), await schemasOn("b", "%")];
    await addBay(own, "to stay");
    const { DATABASE_SERVERS, DIRECT_DATABASE_SERVERS } = environmentWith({});
    reconfigure({ DATABASE_SERVERS: undefined, DIRECT_DATABASE_SERVERS: undefined });
    try {
      const told = await restore(copy);
      expect(told.code).toBe(1);
      expect(told.text).toContain(
        "This copy has shops on database servers that the settings do not name: fjellrev (b).",
      );
      expect((await restore(copy, "--shop", "fjellrev")).text).toContain("fjellrev (b)");
    } finally {
      reconfigure({ DATABASE_SERVERS, DIRECT_DATABASE_SERVERS });
      forgetServers();
    }
    await whileSilent("b", async () => {
      const told = await restore(copy);
      expect(told.code).toBe(1);
      expect(told.text).toContain("The database server b cannot be used: fjellrev cannot be put back on it.");
      expect(told.text).not.toContain("hunter2");
      // What is on the others can be put back meanwhile.
      expect((await restore(copy, "--shop", "saltpan")).code).toBe(0);
    });
    expect(await names(own)).toEqual(["in the copy"]);
    const after = [await schemasOn("", "%"), await schemasOn("b", "%")];
    expect(after[1]).toEqual(before[1]);
    expect(after[0]?.filter((name) => !name.startsWith("replaced"))).toEqual(
      before[0]?.filter((name) => !name.startsWith("replaced")),
    );
  }, 120_000);

  it("put back on no server what is damaged on one: all or nothing", async () => {
    for (const shop of [own, far]) await addBay(shop, "to stay");
    const torn = join(folder, "torn");
    cpSync(copy, torn, { recursive: true });
    appendFileSync(join(torn, `shops/${far.database}.dump`), "x");
    const told = await restore(torn);
    expect(told.code).toBe(1);
    expect(told.text).toContain("fjellrev cannot be put back from this copy.");
    expect([await names(own), await names(far)]).toEqual([
      ["in the copy", "to stay"],
      ["in the copy", "to stay"],
    ]);
    expect(await laid()).toEqual([]);
    expect((await restore(torn, "--skip-damaged")).text).toContain("Left as they stand: 1.");
    expect([await names(own), await names(far)]).toEqual([["in the copy"], ["in the copy", "to stay"]]);
  }, 120_000);

  it("take their places on every server or on none", async () => {
    for (const server of ["", "b"])
      await createSchema(demandAddress(server).direct, `goes_${server || "own"}`);
    const exchange = (ready: string) =>
      swap(
        [
          { server: "b", comes: [], goes: ["goes_b"] },
          { server: "", comes: [{ schema: "comes", ready }], goes: ["goes_own"] },
        ],
        (schema) => `aside_${schema}`,
      );
    await expect(exchange("not_there")).rejects.toThrow(/does not exist/);
    expect([await schemasOn("b", "%goes%"), await schemasOn("", "%goes%")]).toEqual([
      ["goes_b"],
      ["goes_own"],
    ]);
    await createSchema(demandAddress("").direct, "ready");
    expect(await exchange("ready")).toEqual([
      { database: "aside_goes_b", server: "b" },
      { database: "aside_goes_own", server: "" },
    ]);
    expect([await schemasOn("b", "%goes%"), await schemasOn("", "comes")]).toEqual([
      ["aside_goes_b"],
      ["comes"],
    ]);
  }, 60_000);

  it("tell of a shop whose server does not answer, and hold all others", async () => {
    await closeShops();
    await whileSilent("b", async () => {
      const made = await makeBackup(join(folder, "half"));
      expect(made.shops).toEqual(
        expect.arrayContaining([
          expect.objectContaining({
            slug: "fjellrev",
            there: false,
            problems: ["It could not be copied: Its database server b does not answer."],
          }),
          expect.objectContaining({ slug: "saltpan", there: true, problems: [] }),
        ]),
      );
    });
    forgetFaults();
  }, 120_000);
});
