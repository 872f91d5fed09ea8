import { appendFileSync, cpSync, existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reconfigure } from "@/lib/configuration/configuration";
import { createPart } from "@/lib/data/parts/save";
import { keepPhoto } from "@/lib/data/photos/keep";
import { closeDirectory, directory } from "@/lib/db/directory";
import { postgresUrl } from "@/lib/db/folders";
import { holdDatabase } from "@/lib/db/inUsePostgres";
import { inPostgres } from "@/lib/db/postgres";
import { closeShops, type ShopHandle } from "@/lib/db/shop";
import { createSchema } from "@/lib/db/shopSchema";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { folderStore, newFileName } from "@/lib/outside/fileStore";
import { preparePicture } from "@/lib/outside/pictures";
import { NewPartSchema } from "@/lib/schemas/parts";
import { makeBackup, manifestOf } from "@/lib/server/backup/make";
import { runCommand } from "../support/commands";
import { shopsInDirectory } from "../support/dataFolder";
import { phonePhoto } from "../support/pictures";

const url = postgresUrl() ?? "";
const folder = mkdtempSync(join(tmpdir(), "throttlewright-schemas-"));
const copy = join(folder, "copy");
const ODD = '\u2028tab\tline\nback\\slash\r\\. one.two "one"."Bay"';
const MANY = ["m1", "m2", "m3", "m4", "m5", "m6"];

describe.runIf(url)("copies of schemas on PostgreSQL (npm run test:postgres)", () => {
  let one: ShopHandle;
  const sql = (text: string) => inPostgres(url, (client) => client.query(text));
  const shopOf = (slug: string) => handleFor({ slug, database: slug, server: "" }, SYSTEM, new Date());
  const bays = async (slug: string) => shopOf(slug).read.bay.count();
  const addBay = (slug: string, name: string) =>
    shopOf(slug).write((tx) => tx.bay.create({ data: { name } }));
  const restore = (...args: string[]) => runCommand("lib/server/restore.ts", args);
  const schemas = async (like: string) => {
    const { rows } = await sql(
      `SELECT nspname AS name FROM pg_namespace WHERE nspname LIKE '${like}' ORDER BY 1`,
    );
    return rows.map(({ name }) => name as string);
  };

  beforeAll(async () => {
    reconfigure({ DATA_DIR: join(folder, "data") });
    [one] = (await shopsInDirectory(["one", "two"])) as [ShopHandle, ShopHandle];
    const part = await createPart(
      one,
      NewPartSchema.parse({
        code: "RS-1",
        name: "Slide",
        kind: "other",
        unit: "each",
      }),
    );
    // Signs that a file of lines may trip over, and the shop's own name.
    await one.write((tx) => tx.bay.updateMany({ data: { name: ODD } }));
    const picture = await preparePicture(await phonePhoto());
    await keepPhoto(one, folderStore(one.files), picture, {
      noun: "part",
      nounId: part,
      file: newFileName(),
    });
    for (const slug of MANY) {
      await createSchema(url, slug);
      await directory().write((tx) =>
        tx.shop.create({ data: { id: slug, slug, name: slug, database: slug, createdAt: new Date() } }),
      );
    }
    const made = await makeBackup(copy);
    expect(made.shops.map(({ slug, problems }) => [slug, problems])).toEqual(
      [...MANY, "one", "two"].map((slug) => [slug, []]),
    );
  }, 300_000);
  afterAll(async () => {
    await closeShops();
    await closeDirectory();
    rmSync(folder, { recursive: true, force: true });
  });

  it("tell in their manifest how each schema stood: rows of every table, a digest, photos beside", async () => {
    const manifest = manifestOf(copy);
    const shop = manifest?.shops.find(({ slug }) => slug === "one");
    expect(shop).toMatchObject({ there: true, digest: expect.stringMatching(/^[0-9a-f]{64}$/) });
    expect(shop?.rows).toMatchObject({ Part: 1, Photo: 1, Bay: 1, Invoice: 0 });
    expect(Object.keys(shop?.rows ?? {}).length).toBeGreaterThan(100);
    expect(manifest?.directory?.rows).toMatchObject({ Shop: MANY.length + 2 });
    expect(readdirSync(join(copy, "files/one"))).toHaveLength(2);
  });

  it("put one shop back, with its photos, and leave every other as it is", async () => {
    const part = await one.read.part.findFirstOrThrow({ where: { code: "RS-1" }, orderBy: { id: "asc" } });
    const before = await one.read.bay.findMany({ orderBy: { id: "asc" } });
    expect(before).toEqual([expect.objectContaining({ name: ODD })]);
    await addBay("one", "after the copy");
    await addBay("two", "after the copy");
    rmSync(one.files, { recursive: true });
    const told = await restore(copy, "--shop", "one");
    expect(told.text).toContain("one: put back, opened and checked");
    expect(told.code).toBe(0);
    expect(await one.read.bay.findMany({ orderBy: { id: "asc" } })).toEqual(before);
    expect(await bays("two")).toBe(2);
    expect(await one.read.part.findFirst({ where: { code: "RS-1" }, orderBy: { id: "asc" } })).toEqual(part);
    expect(readdirSync(one.files)).toHaveLength(2);
    const [replaced] = await schemas("replaced%one");
    expect((await sql(`SELECT count(*)::int AS n FROM "${replaced}"."Bay"`)).rows).toEqual([{ n: 2 }]);
    expect(await schemas("coming%")).toEqual([]);
    // What was put back is written like any other, with its triggers and its searching.
    await addBay("one", "after the restore");
    await expect(sql(`DELETE FROM "one"."AuditEntry"; TRUNCATE "one"."Move"`)).rejects.toThrow("only grows");
    expect((await sql(`SELECT count(*)::int AS n FROM "one"."PartSearch"`)).rows).toEqual([{ n: 1 }]);
    const { rows } = await sql(
      `SELECT count(*)::int AS n FROM pg_indexes WHERE schemaname = 'one' AND indexdef LIKE '%gin_trgm_ops%'`,
    );
    expect(rows).toEqual([{ n: 6 }]);
  }, 240_000);

  it("put everything back at once; a shop that the copy does not know is set aside", async () => {
    await createSchema(url, "later");
    await directory().write((tx) =>
      tx.shop.create({
        data: { id: "later", slug: "later", name: "x", database: "later", createdAt: new Date() },
      }),
    );
    const told = await restore(copy);
    for (const slug of [...MANY, "one", "two"])
      expect(told.text).toContain(`${slug}: put back, opened and checked`);
    expect(told.code).toBe(0);
    expect(await directory().read.shop.count()).toBe(MANY.length + 2);
    expect(await bays("one")).toBe(1);
    expect(await bays("two")).toBe(1);
    expect(await schemas("later")).toEqual([]);
    expect(await schemas("replaced%later")).toHaveLength(1);
    expect(await schemas("coming%")).toEqual([]);
  }, 240_000);

  it("are refused as a whole where one was changed, and where a server is running; nothing is touched", async () => {
    await addBay("one", "to stay");
    const torn = join(folder, "torn");
    cpSync(copy, torn, { recursive: true });
    appendFileSync(join(torn, "shops/two.dump"), "x");
    const changed = await restore(torn);
    expect(changed.text).toContain("two: Its file has been changed since the backup was made.");
    expect(changed.text).toContain("two cannot be put back from this copy.");
    expect(changed.code).toBe(1);
    const held = await holdDatabase(url);
    const refused = await restore(copy);
    await held.release();
    expect(refused.text).toContain("A server, or another restore, is using this database.");
    const files = join(folder, "files");
    cpSync(copy, files, { recursive: true });
    rmSync(join(files, "directory.dump"));
    writeFileSync(join(files, "directory.sqlite"), "");
    expect((await restore(files)).text).toContain("is of SQLite files");
    expect(await bays("one")).toBe(2);
    expect(await schemas("coming%")).toEqual([]);
    expect(existsSync(join(folder, "data/replaced"))).toBe(false);
  }, 240_000);
});
