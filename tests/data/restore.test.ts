import { type ChildProcess, spawn } from "node:child_process";
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { settleErased } from "@/lib/data/erasing/again";
import { eraseCustomer } from "@/lib/data/erasing/erase";
import { createPart } from "@/lib/data/parts/save";
import { keepPhoto } from "@/lib/data/photos/keep";
import { closeDirectory, directory } from "@/lib/db/directory";
import { closeShops, type ShopHandle, shopFile } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { NewPartSchema } from "@/lib/schemas/parts";
import { makeBackup } from "@/lib/server/backup/make";
import { eachShop } from "@/lib/server/eachShop";
import { carryOut } from "@/lib/server/restore/exchange";
import { ERASED_AGAIN } from "@/lib/server/work";
import { runCommand } from "../support/commands";
import { nodeArgs } from "../support/compiled";
import { damageMiddle, shopsInDirectory } from "../support/dataFolder";
import { phonePhoto } from "../support/pictures";
import { workThenKill } from "../support/workThenKill";

/** A data folder with two shops and a backup of it, made once; each test has its own copy of both. */
const prepared = mkdtempSync(join(tmpdir(), "throttlewright-restore-"));
const before = process.env.DATA_DIR;
let data: string;
let copy: string;

const left = async () => {
  await closeShops();
  await closeDirectory();
};
const bays = async (slug: string) =>
  handleFor({ slug, database: slug, server: "" }, SYSTEM, new Date()).read.bay.count();
const addBay = (slug: string, name: string) =>
  handleFor({ slug, database: slug, server: "" }, SYSTEM, new Date()).write((tx) =>
    tx.bay.create({ data: { name } }),
  );
const restore = (...args: string[]) => runCommand("lib/server/restore.ts", args);
const replacedIn = () => {
  const all = join(data, "replaced");
  const [only] = existsSync(all) ? readdirSync(all) : [];
  return only ? readdirSync(join(all, only), { recursive: true, encoding: "utf8" }).sort() : [];
};

beforeAll(async () => {
  reconfigure({ DATA_DIR: join(prepared, "data") });
  const [one] = (await shopsInDirectory(["one", "two"])) as [ShopHandle, ShopHandle];
  const part = await createPart(
    one,
    NewPartSchema.parse({ code: "RS-1", name: "Slide", kind: "other", unit: "each" }),
  );
  const picture = await preparePicture(await phonePhoto());
  await keepPhoto(one, folderStore(one.files), picture, { noun: "part", nounId: part, file: newFileName() });
  await one.write((tx) =>
    tx.customer.create({
      data: { name: "Runa Brekkemoen", searchKey: "runa brekkemoen", createdAt: one.now },
    }),
  );
  await makeBackup(join(prepared, "copy"));
  await left();
}, 120_000);
beforeEach(() => {
  const own = mkdtempSync(join(tmpdir(), "throttlewright-restored-"));
  data = join(own, "data");
  copy = join(own, "copy");
  cpSync(join(prepared, "data"), data, { recursive: true });
  cpSync(join(prepared, "copy"), copy, { recursive: true });
  reconfigure({ DATA_DIR: data });
});
afterEach(async () => {
  await left();
  rmSync(join(data, ".."), { recursive: true, force: true });
});
afterAll(() => {
  reconfigure({ DATA_DIR: before });
  rmSync(prepared, { recursive: true, force: true });
});

describe.runIf(!process.env.DATABASE_URL)("the restore command", () => {
  it("puts everything back after a writer was killed, without its log, and keeps what it replaced", async () => {
    const said = await workThenKill<{ turn: number }>("writeUntilKilled.ts", ["one"], {
      ms: 300,
      begun: '"turn":3',
    });
    expect(said.length).toBeGreaterThan(2);
    expect(existsSync(`${shopFile("one")}-wal`)).toBe(true);
    writeFileSync(join(data, "shops/later.sqlite"), "opened after the backup");
    await left();
    // When the copy was made, somebody was about to open a shop: its database is swept away an hour later.
    const copied = new Database(join(copy, "directory.sqlite"));
    copied.prepare(`INSERT INTO "ShopInMaking" ("database", "startedAt") VALUES ('one', 0)`).run();
    copied.close();

    const told = await restore(copy);
    expect(told.text).toContain("one: put back, opened and checked");
    expect(told.text).toContain("two: put back, opened and checked");
    expect(told.code).toBe(0);
    expect(readdirSync(join(data, "shops"))).toEqual(["one.sqlite", "two.sqlite"]);
    expect(await bays("one")).toBe(1);
    const back = new Database(join(data, "directory.sqlite"), { readonly: true });
    expect(back.prepare(`SELECT count(*) AS n FROM "ShopInMaking"`).get()).toEqual({ n: 0 });
    back.close();
    expect(existsSync(join(data, "restore-plan.json"))).toBe(false);
    expect(existsSync(join(data, "restore-in-the-making"))).toBe(false);
    // The replaced files still hold every write that was acknowledged, in their log.
    const kept = join(data, "replaced", readdirSync(join(data, "replaced"))[0] ?? "");
    const old = new Database(join(kept, "shops/one.sqlite"));
    expect(old.prepare(`SELECT count(*) AS n FROM "Bay" WHERE "name" LIKE '% of many'`).get()).toEqual({
      n: expect.toSatisfy((n: number) => n >= said.length),
    });
    old.close();
    expect(replacedIn()).toEqual(
      expect.arrayContaining(["directory.sqlite", "files/one", "shops/later.sqlite", "shops/two.sqlite"]),
    );
  }, 120_000);

  it("puts one shop back and leaves the other and the directory as they are", async () => {
    await addBay("one", "Later");
    await addBay("two", "Later");
    await directory().write((tx) => tx.shop.update({ where: { slug: "two" }, data: { name: "Renamed" } }));
    await left();
    damageMiddle(shopFile("one"));
    rmSync(join(data, "files/one"), { recursive: true });

    const told = await restore(copy, "--shop", "one");
    expect(told).toMatchObject({
      code: 0,
      text: expect.stringContaining("one: put back, opened and checked"),
    });
    expect([await bays("one"), await bays("two")]).toEqual([1, 2]);
    expect((await directory().read.shop.findUniqueOrThrow({ where: { slug: "two" } })).name).toBe("Renamed");
    expect(readdirSync(join(data, "files/one"))).toEqual(readdirSync(join(copy, "files/one")));
    expect(replacedIn()).toEqual(["shops", "shops/one.sqlite"]);
  }, 60_000);

  it("leads to the erasure again of who was erased since, and of nobody who came later", async () => {
    const at = (days: number) => new Date(Date.parse("2026-11-25T00:30:00Z") + days * 86_400_000);
    const one = (days: number) => handleFor({ slug: "one", database: "one", server: "" }, SYSTEM, at(days));
    const named = async () =>
      (await one(9).read.customer.findMany({ orderBy: { id: "asc" } })).map(({ name }) => name);
    const add = (name: string, days: number) =>
      one(days).write((tx) =>
        tx.customer.create({ data: { name, searchKey: name.toLowerCase(), createdAt: at(days) } }),
      );
    const later = await add("Came after the copy", 1);
    for (const id of [1, later.id]) {
      const { version } = await one(2).read.customer.findUniqueOrThrow({ where: { id } });
      await eraseCustomer(one(2), { id, version }, folderStore(one(2).files));
    }
    await left();

    expect((await restore(copy)).code).toBe(0);
    expect(await named()).toEqual(["Runa Brekkemoen"]);
    // The number of one who was erased is given out anew.
    expect((await add("Odd Tvillingfoss", 3)).id).toBe(later.id);
    expect(await eachShop(ERASED_AGAIN, () => at(4))).toMatchObject({ failed: 0, done: [1] });
    expect(await named()).toEqual(["Erased customer 1", "Odd Tvillingfoss"]);
    await left();

    // The directory stays where one shop alone is put back, and learns of what it did not know.
    expect((await restore(copy, "--shop", "one")).code).toBe(0);
    expect(await eachShop(ERASED_AGAIN, () => at(5))).toMatchObject({ failed: 0, done: [1] });
    expect(await named()).toEqual(["Erased customer 1"]);
    await directory().write((tx) => tx.erasedCustomer.deleteMany());
    expect(await settleErased(one(6), folderStore(one(6).files))).toBe(0);
    expect(await directory().read.erasedCustomer.findMany()).toMatchObject([
      { shopId: "one", customerId: 1 },
    ]);
  }, 120_000);

  it("takes a folder that a killed server left for a copy, with what came last in its log", async () => {
    const said = await workThenKill<{ turn: number }>("writeUntilKilled.ts", ["two"], {
      ms: 200,
      begun: '"turn":3',
    });
    const killed = `${data}-killed`;
    renameSync(data, killed);
    const told = await restore(killed);
    expect(told).toMatchObject({
      code: 0,
      text: expect.stringContaining("two: put back, opened and checked"),
    });
    expect(await bays("two")).toBeGreaterThanOrEqual(1 + said.length);
  }, 120_000);

  it("refuses while a process uses the folder, and no longer once that was killed", async () => {
    const user: ChildProcess = spawn(
      process.execPath,
      [...nodeArgs("tests/support/writeUntilKilled.ts"), "one"],
      { env: process.env, stdio: ["ignore", "pipe", "inherit"] },
    );
    const gone = new Promise((done) => user.once("exit", done));
    await new Promise<void>((begun) => user.stdout?.once("data", () => begun()));
    const refused = await restore(copy);
    expect(refused).toMatchObject({ code: 1, text: expect.stringContaining("is using the data folder") });
    expect(existsSync(join(data, "replaced"))).toBe(false);
    user.kill("SIGKILL");
    await gone;
    expect((await restore(copy)).code).toBe(0);
  }, 120_000);

  it("finishes one that was cut off between any two of its moves", async () => {
    const making = join(data, "restore-in-the-making");
    const replaced = join(data, "replaced/then");
    const plan = {
      replaced,
      making,
      comes: ["shops/one.sqlite", "files/one", "shops/two.sqlite", "directory.sqlite"],
      goes: ["shops/later.sqlite"],
    };
    await addBay("one", "Later");
    await addBay("two", "Later");
    await left();
    writeFileSync(join(data, "shops/later.sqlite"), "x");
    cpSync(copy, making, { recursive: true });
    rmSync(join(making, "backup.json"));
    writeFileSync(join(data, "restore-plan.json"), JSON.stringify(plan));
    // One has come; two has been put aside and nothing is in its place.
    mkdirSync(join(replaced, "shops"), { recursive: true });
    renameSync(shopFile("one"), join(replaced, "shops/one.sqlite"));
    renameSync(join(making, "shops/one.sqlite"), shopFile("one"));
    renameSync(shopFile("two"), join(replaced, "shops/two.sqlite"));

    const told = await restore();
    expect(told).toMatchObject({ code: 0, text: expect.stringContaining("cut off is finished") });
    expect([await bays("one"), await bays("two")]).toEqual([1, 1]);
    expect(readdirSync(join(data, "shops")).filter((name) => name.endsWith(".sqlite"))).toEqual([
      "one.sqlite",
      "two.sqlite",
    ]);
    expect(existsSync(making)).toBe(false);
    await left();
    // Once more changes nothing.
    carryOut(plan);
    expect(await bays("one")).toBe(1);
  }, 60_000);

  it("refuses a damaged copy and changes nothing, unless the damaged shop is to be left as it stands", async () => {
    await addBay("one", "Later");
    await addBay("two", "Later");
    await left();
    damageMiddle(join(copy, "shops/one.sqlite"));
    const refused = await restore(copy);
    expect(refused).toMatchObject({ code: 1, text: expect.stringContaining("one cannot be put back") });
    expect(refused.text).toContain("two: whole, and its books add up");
    expect([await bays("one"), await bays("two")]).toEqual([2, 2]);
    expect(existsSync(join(data, "restore-in-the-making"))).toBe(false);
    await left();
    const told = await restore(copy, "--skip-damaged");
    expect(told.text).toContain("Left as they stand: 1.");
    expect([await bays("one"), await bays("two")]).toEqual([2, 1]);
  }, 60_000);

  it("refuses a copy that was changed since it was made, or whose books do not add up", async () => {
    await left();
    const raw = new Database(join(copy, "shops/one.sqlite"));
    raw.exec(`UPDATE "Part" SET "onHandMilli" = 5000`);
    raw.close();
    expect((await restore(copy)).text).toContain("changed since the backup was made");
    rmSync(join(copy, "backup.json"));
    const refused = await restore(copy);
    expect(refused).toMatchObject({
      code: 1,
      text: expect.stringContaining("The books of one do not add up"),
    });
    const told = await restore(copy, "--with-problems", "--shop", "one");
    expect(told.text).toContain("RS-1: on hand says 5000");
  }, 60_000);

  it("says what it does not understand, and what a copy does not hold", async () => {
    await left();
    expect((await restore()).text).toContain("No copy was named.");
    expect((await restore(data, "--everything")).text).toContain("--everything");
    expect((await restore(join(copy, "shops"))).text).toContain("There is no backup in");
    expect((await restore(copy, "--shop", "three")).text).toContain("It knows one, two.");
    const unknown = new Database(join(data, "directory.sqlite"));
    unknown.exec(`DELETE FROM "Shop" WHERE "slug" = 'one'`);
    unknown.close();
    expect((await restore(copy, "--shop", "one")).text).toContain("does not know the shop");
    expect(readFileSync(join(copy, "backup.json"), "utf8")).toContain('"one"');
  }, 60_000);
});
