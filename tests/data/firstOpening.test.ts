import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { stateOfFile } from "@/lib/db/applied";
import { closeDirectory, directory } from "@/lib/db/directory";
import { newestLevel } from "@/lib/db/levels";
import { checkShops } from "@/lib/db/migrate";
import { applyMigrations, migrations } from "@/lib/db/migrations";
import { closeShops, shopFile } from "@/lib/db/shop";
import { faultOf, forgetFaults, ShopShut, shopFaults } from "@/lib/db/shopFaults";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { orShut } from "@/lib/gate/shut";
import { eachShop } from "@/lib/server/eachShop";
import { runCommand } from "../support/commands";
import { putInDirectory } from "../support/directoryShops";

const before = process.env.DATA_DIR;
const folder = mkdtempSync(join(tmpdir(), "throttlewright-older-"));
const all = migrations("shop", "sqlite");
/** As the version before the shares of documents left a shop. */
const older = all.filter(({ name }) => name < "0101");
const open = (database: string) => handleFor({ slug: database, database, server: "" }, SYSTEM, new Date());
const level = async (database: string) =>
  (await directory().read.shop.findUniqueOrThrow({ where: { database }, select: { level: true } })).level;

async function olderShop(database: string): Promise<void> {
  await applyMigrations("shop", { provider: "sqlite", file: shopFile(database) }, older.at(-1)?.name);
}

describe.runIf(!process.env.DATABASE_URL)("a shop that an older version left", () => {
  beforeAll(async () => {
    reconfigure({ DATA_DIR: folder });
    mkdirSync(join(folder, "shops"));
    for (const database of ["one", "two", "three", "ill"]) await olderShop(database);
    // What a migration is to make is there already, by nobody's hand: it fails.
    const raw = new Database(shopFile("ill"));
    raw.exec(`CREATE TABLE "DocumentShare" (id INTEGER)`);
    raw.close();
    await putInDirectory([]);
    const shops = ["one", "two", "three", "ill"].map((slug) => ({ slug, database: slug }));
    await directory().write(async (tx) => {
      for (const { slug, database } of shops)
        await tx.shop.create({ data: { id: slug, slug, name: slug, database, createdAt: new Date() } });
    });
  });
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    forgetFaults();
    reconfigure({ DATA_DIR: before });
    rmSync(folder, { recursive: true, force: true });
  });

  it("is left as it is by the start, which says how many wait, and shuts those without a file", async () => {
    await directory().write((tx) =>
      tx.shop.create({ data: { id: "no", slug: "no", name: "no", database: "no", createdAt: new Date() } }),
    );
    expect(await checkShops()).toBe(5);
    expect(stateOfFile(shopFile("one")).applied).toHaveLength(older.length);
    expect(shopFaults().map(({ slug, reason }) => `${slug}: ${reason}`)).toEqual([
      "no: Its file is missing.",
    ]);
    await directory().write((tx) => tx.shop.delete({ where: { id: "no" } }));
  });

  it("is brought up to date as it is first opened, once for all who ask meanwhile, and no other with it", async () => {
    const known = { work: "quotes", dueAt: null, looks: 3 };
    await directory().write((tx) =>
      tx.dueWork.createMany({ data: ["one", "two"].map((shopId) => ({ ...known, shopId })) }),
    );
    const shop = open("one");
    const answers = await Promise.all([
      shop.read.documentShare.count(),
      shop.write((tx) => tx.bay.count()),
      open("one").read.mail.count(),
      runCommand("tests/support/openShop.ts", ["one"]),
    ]);
    expect(answers).toEqual([0, 0, 0, expect.objectContaining({ code: 0, text: "0 bays, 0 shares\n" })]);
    expect(stateOfFile(shopFile("one"))).toMatchObject({ writeAheadLog: true });
    expect(stateOfFile(shopFile("one")).applied).toHaveLength(all.length);
    expect(stateOfFile(shopFile("two")).applied).toHaveLength(older.length);
    expect([await level("one"), await level("two")]).toEqual([newestLevel(), ""]);
    // What it has to do may have changed with it: all works look anew.
    const rows = await directory().read.dueWork.findMany({ orderBy: { shopId: "asc" } });
    expect(rows.map(({ shopId }) => shopId)).toEqual(["two"]);
  }, 60_000);

  it("is brought up to date by a round too, before its work begins", async () => {
    await directory().write((tx) => tx.shop.deleteMany({ where: { id: { in: ["three", "ill"] } } }));
    const shares = {
      name: "shares",
      wanted: async () => true,
      run: (shop: ReturnType<typeof open>) => shop.read.documentShare.count(),
      next: async () => null,
    };
    expect(await eachShop(shares, () => new Date())).toEqual({ shops: 2, failed: 0, done: [0, 0] });
    expect(await level("two")).toBe(newestLevel());
  }, 60_000);

  it("is shut where it cannot be, with the reason, while the others work", async () => {
    await putBack(["three", "ill"]);
    const asked = orShut({ slug: "ill", database: "ill", server: "" }, () => open("ill").read.bay.count());
    expect(await asked).toBe("shut");
    expect(faultOf("ill")).toMatchObject({
      slug: "ill",
      lasting: true,
      reason: expect.stringContaining("could not be brought up to date"),
    });
    expect(() => open("ill")).toThrow(ShopShut);
    expect(await open("one").read.documentShare.count()).toBe(0);
  }, 60_000);

  it("is brought up to date with all others by npm run migrate, which names the one that is not", async () => {
    await closeShops();
    expect(await checkShops()).toBe(2);
    const told = await runCommand("lib/db/cli/migrate.ts", []);
    expect(told.code).toBe(1);
    expect(told.text).toContain("shop three: 0101_document_shares");
    expect(told.text).toContain("ill cannot be opened");
    expect(stateOfFile(shopFile("three")).applied).toHaveLength(all.length);
    expect(await checkShops()).toBe(1);
  }, 60_000);
});

async function putBack(slugs: readonly string[]): Promise<void> {
  await directory().write(async (tx) => {
    for (const slug of slugs)
      await tx.shop.create({ data: { id: slug, slug, name: slug, database: slug, createdAt: new Date() } });
  });
}
