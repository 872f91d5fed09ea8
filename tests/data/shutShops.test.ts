import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { backupRecord } from "@/lib/db/backupRecord";
import { closeDirectory, directoryFile } from "@/lib/db/directory";
import { migrateAll } from "@/lib/db/migrate";
import { closeShops, type ShopHandle, shopFile } from "@/lib/db/shop";
import { faultOf, forgetFaults, ShopShut, shopFaults } from "@/lib/db/shopFaults";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { orShut } from "@/lib/gate/shut";
import { eachShop } from "@/lib/server/eachShop";
import { QUOTES } from "@/lib/server/work";
import { runCommand } from "../support/commands";
import { damageMiddle, shopsInDirectory } from "../support/dataFolder";

const prepared = mkdtempSync(join(tmpdir(), "throttlewright-shut-"));
let folder: string;
let well: ShopHandle;
const before = process.env.DATA_DIR;

const left = async () => {
  await closeShops();
  await closeDirectory();
  forgetFaults();
};

beforeAll(async () => {
  reconfigure({ DATA_DIR: prepared });
  [, well] = (await shopsInDirectory(["ill", "well"])) as [ShopHandle, ShopHandle];
  await left();
});
beforeEach(() => {
  folder = `${prepared}-now`;
  cpSync(prepared, folder, { recursive: true });
  reconfigure({ DATA_DIR: folder });
});
afterEach(async () => {
  await left();
  rmSync(folder, { recursive: true, force: true });
});
afterAll(() => {
  reconfigure({ DATA_DIR: before });
  rmSync(prepared, { recursive: true, force: true });
});

/** Ways in which a shop's file is lost, and what is said of each. */
const WAYS: readonly [string, (file: string) => void, RegExp][] = [
  ["damaged at its beginning", (file) => writeFileSync(file, Buffer.alloc(200_000, 0x5a)), /no database/],
  ["damaged in its middle", damageMiddle, /damaged/],
  ["missing", (file) => rmSync(file), /missing/],
  [
    "a folder",
    (file) => {
      rmSync(file);
      mkdirSync(file);
    },
    /does not give its file back/,
  ],
  [
    "of a newer version",
    (file) => {
      const raw = new Database(file);
      raw.exec(
        `INSERT INTO "_prisma_migrations" (id, checksum, finished_at, migration_name, started_at, applied_steps_count) VALUES ('x', 'x', '2030-01-01', '9999_from_the_future', '2030-01-01', 1)`,
      );
      raw.close();
    },
    /newer Throttlewright/,
  ],
];

describe.runIf(!process.env.DATABASE_URL)("a shop's file that cannot be used, beside a healthy one", () => {
  for (const [what, spoil, reason] of WAYS)
    it(`shuts that shop alone, at the start, in use and on rounds: ${what}`, async () => {
      spoil(shopFile("ill"));
      await migrateAll();
      expect(shopFaults()).toEqual([
        expect.objectContaining({
          slug: "ill",
          database: "ill",
          place: shopFile("ill"),
          reason: expect.stringMatching(reason),
        }),
      ]);
      expect(() => handleFor({ slug: "ill", database: "ill", server: "" }, SYSTEM, new Date())).toThrow(
        ShopShut,
      );
      expect(existsSync(shopFile("ill"))).toBe(what !== "missing");
      const other = handleFor({ slug: "well", database: "well", server: "" }, SYSTEM, well.now);
      await other.write((tx) => tx.bay.create({ data: { name: "Bay two" } }));
      expect(await other.read.bay.count()).toBe(2);
      expect(await eachShop(QUOTES, () => new Date())).toMatchObject({ shops: 2, failed: 1 });
    }, 60_000);

  it("keeps no other shop from its backup", async () => {
    damageMiddle(shopFile("ill"));
    const copy = join(folder, "copy");
    const told = await runCommand("lib/server/backup.ts", [copy]);
    expect(told.text).toContain("ill: It could not be copied");
    expect(told.text).toContain("well: copied, opened and checked");
    expect(told.code).toBe(1);
    // Whole files: nothing lies beside them that a restore would have to know of.
    expect(readdirSync(join(copy, "shops"))).toEqual(["well.sqlite"]);
    expect(readdirSync(copy).sort()).toEqual(["backup.json", "directory.sqlite", "shops"]);
    expect(backupRecord()).toMatchObject({
      last: { shops: 2, bad: 1 },
      shops: {
        ill: { goodAt: null, problems: [expect.stringContaining("could not be copied")] },
        well: { goodAt: expect.any(String), problems: [] },
      },
    });
  }, 60_000);

  it("is found in use: the first failure shuts the shop, and whoever comes next is told", async () => {
    await migrateAll();
    const place = { slug: "ill", database: "ill", server: "" };
    const shop = handleFor(place, SYSTEM, new Date());
    expect(await shop.read.bay.count()).toBe(1);
    await closeShops();
    damageMiddle(shopFile("ill"));
    const ask = () =>
      orShut(place, async () => {
        const opened = handleFor(place, SYSTEM, new Date());
        await opened.read.settings.findUniqueOrThrow({ where: { id: 1 } });
        return opened.read.part.findMany({ orderBy: { id: "asc" } });
      });
    expect(await ask()).toBe("shut");
    expect(faultOf("ill")).toMatchObject({ slug: "ill", lasting: true });
    expect(await ask()).toBe("shut");
    expect(faultOf("well")).toBeUndefined();
  });

  it("is tried again after a while where that may have passed by itself", async () => {
    await migrateAll();
    const place = { slug: "ill", database: "ill", server: "" };
    const file = shopFile("ill");
    copyFileSync(file, `${file}.kept`);
    rmSync(file);
    const open = () => handleFor(place, SYSTEM, new Date());
    expect(open).toThrow(ShopShut);
    copyFileSync(`${file}.kept`, file);
    expect(open).toThrow(ShopShut);
    const [fault] = shopFaults();
    Object.assign(fault ?? {}, { since: new Date(Date.now() - 60_000) });
    expect(await open().read.bay.count()).toBe(1);
    expect(shopFaults()).toEqual([]);
  });

  it("is told of by npm run migrate, which brings the others up to date and ends with 1", async () => {
    damageMiddle(shopFile("ill"));
    const told = await runCommand("lib/db/cli/migrate.ts", []);
    expect(told).toMatchObject({ code: 1, text: expect.stringContaining("ill cannot be opened") });
  });

  it("says in words that a directory which must be brought up to date is held by another process", async () => {
    const holder = new Database(directoryFile());
    holder.exec(`DELETE FROM "_prisma_migrations" WHERE "migration_name" = '0002_guards'; BEGIN IMMEDIATE`);
    try {
      await expect(migrateAll()).rejects.toMatchObject({
        name: "Refusal",
        message: expect.stringContaining("another process is using it"),
      });
    } finally {
      holder.close();
    }
  }, 60_000);

  it("leaves a damaged directory as it is and says how to go on", async () => {
    writeFileSync(directoryFile(), Buffer.alloc(50_000, 0x5a));
    const { size } = statSync(directoryFile());
    await expect(migrateAll()).rejects.toMatchObject({
      name: "Refusal",
      message: expect.stringContaining("directory.sqlite"),
      remedy: expect.stringContaining("npm run restore"),
    });
    expect(statSync(directoryFile()).size).toBe(size);
  });
});
