import { existsSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { parse } from "csv-parse/sync";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { askForExport, exportOf } from "@/lib/data/people/exports";
import { photoFileNames } from "@/lib/data/photos/check";
import { closeDirectory, directory } from "@/lib/db/directory";
import { dataFolder, exportsFolder, postgresUrl } from "@/lib/db/folders";
import { createShopDatabaseAt } from "@/lib/db/migrate";
import { migrations } from "@/lib/db/migrations";
import { idsMatching } from "@/lib/db/search";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { folderStore } from "@/lib/outside/fileStore";
import type { ShopManifest } from "@/lib/server/moving/archive";
import { exportRound, sweepExports } from "@/lib/server/moving/exportRound";
import { exportShop } from "@/lib/server/moving/exportShop";
import { importShop } from "@/lib/server/moving/importShop";
import { allRows, sha256, takeSettings, unzipped, zipped } from "../support/moved";
import { twoWorkedShops, type WorkedShop } from "../support/workedShops";

let a: WorkedShop;
let b: WorkedShop;
const files: Record<string, string> = {};
const manifests: Record<string, ShopManifest> = {};
let before: Awaited<ReturnType<typeof allRows>>[];

beforeAll(async () => {
  ({ a, b } = await twoWorkedShops());
  before = [await allRows(a.database), await allRows(b.database)];
  for (const shop of [a, b]) {
    const file = join(dataFolder(), `${shop.slug}.zip`);
    files[shop.slug] = file;
    manifests[shop.slug] = await exportShop(shop, file, shop.now);
  }
});
afterAll(closeDirectory);

/** What keeps a copy quiet, left out of the comparison. */
const QUIET: Readonly<Record<string, readonly string[]>> = {
  Mail: ["state", "failure", "nextAt", "heldUntil"],
  CustomerLink: ["revokedAt"],
  Settings: ["remindAfterDays", "remindBeforeDays", "version"],
};
const loud = (table: string) => (row: Readonly<Record<string, unknown>>) =>
  Object.fromEntries(Object.entries(row).filter(([name]) => !QUIET[table]?.includes(name)));

const fileOf = (shop: WorkedShop) => files[shop.slug] as string;
const manifestOf = (shop: WorkedShop) => manifests[shop.slug] as ShopManifest;

describe("the export of a whole shop", () => {
  it("holds each table as CSV and as JSON, the photos, and a manifest with each file's digest", async () => {
    for (const shop of [a, b]) {
      const [zip, manifest] = [await unzipped(fileOf(shop)), manifestOf(shop)];
      expect(zip.size).toBe(manifest.files.length + 1);
      expect(JSON.parse(String(zip.get("manifest.json")))).toEqual(manifest);
      for (const { name, bytes, sha256: told } of manifest.files) {
        const there = zip.get(name) as Buffer;
        expect([name, there.length, sha256(there)]).toEqual([name, bytes, told]);
      }
      const rows = await allRows(shop.database);
      expect(Object.keys(manifest.tables).sort()).toEqual(Object.keys(rows).sort());
      for (const [table, there] of Object.entries(rows)) {
        expect(manifest.tables[table]?.rows).toBe(there.length);
        const json = String(zip.get(`json/${table}.ndjson`))
          .split("\n")
          .slice(0, -1);
        expect(json.map((line) => JSON.parse(line))).toEqual(there);
        const told = (value: unknown) => (value === null ? "" : String(value));
        const texts = there.map((row) =>
          Object.fromEntries(Object.entries(row).map(([name, value]) => [name, told(value)])),
        );
        expect(parse(zip.get(`csv/${table}.csv`) as Buffer, { columns: true })).toEqual(texts);
      }
      const names = await photoFileNames(shop);
      expect(names).toHaveLength(4);
      for (const name of names)
        expect(zip.get(`photos/${name}`)?.equals((await folderStore(shop.files).get(name)) as Buffer)).toBe(
          true,
        );
      expect(zip.has("shop.sqlite")).toBe(!postgresUrl());
    }
  });

  it("holds the database itself, whole, where it is SQLite", async () => {
    if (postgresUrl()) return expect(manifestOf(a).database).toBe("postgresql");
    const file = join(dataFolder(), "unpacked.sqlite");
    writeFileSync(file, (await unzipped(fileOf(a))).get("shop.sqlite") as Buffer);
    const raw = new Database(file);
    expect(raw.pragma("integrity_check", { simple: true })).toBe("ok");
    const count = raw.prepare(`SELECT count(*) FROM "AuditEntry"`).pluck().get();
    expect(count).toBe(before[0]?.AuditEntry?.length);
    raw.close();
  });

  it("holds nothing of the directory and nothing of another shop", async () => {
    const secrets = [`$argon2id$${a.by.personId}`, `$argon2id$${b.by.personId}`, b.ownerEmail, b.database];
    for (const [name, bytes] of await unzipped(fileOf(a)))
      for (const secret of secrets) expect([name, bytes.includes(secret)]).toEqual([name, false]);
  });
});

describe("an import of that file", () => {
  it("opens a new shop that is equal row for row and picture for picture, and leaves the others as they were", async () => {
    for (const [at, shop] of [a, b].entries()) {
      const slug = `again-${at}`;
      const made = await importShop(fileOf(shop), { slug, owner: a.ownerEmail }, shop.now);
      expect(made.slug).toBe(slug);
      const there = await allRows(made.database);
      const was = before[at] as typeof there;
      for (const [table, rows] of Object.entries(was))
        if (table === "Staff" || table === "AuditEntry" || table === "TimeEntry")
          expect(there[table]?.slice(0, rows.length).map((row) => ({ ...row, active: null }))).toEqual(
            rows.map((row) => ({ ...row, active: null })),
          );
        else expect({ [table]: there[table]?.map(loud(table)) }).toEqual({ [table]: rows.map(loud(table)) });
      const copy = handleFor(made, SYSTEM, shop.now);
      const store = folderStore(copy.files);
      expect(await problemsOf(copy, store)).toEqual([]);
      for (const name of await photoFileNames(shop))
        expect((await store.get(name))?.toString()).toBe(
          (await folderStore(shop.files).get(name))?.toString(),
        );
      const customer = await copy.read.customer.findFirstOrThrow({ where: { id: shop.customerId } });
      const hits = await idsMatching(
        copy,
        [{ table: "Customer", most: 5 }],
        [{ text: customer.searchKey.slice(0, 5) }],
      );
      expect(hits.map(({ id }) => id)).toContain(shop.customerId);
      expect(
        await directory().read.membership.findMany({
          where: { shopId: made.id },
          select: { personId: true, role: true },
        }),
      ).toEqual([{ personId: a.by.personId, role: "owner" }]);
      // A number that was given out is not given again, and what was issued stays as it is.
      const { id } = await copy.write((tx) =>
        tx.customer.create({ data: { name: "New", searchKey: "new", createdAt: shop.now } }),
      );
      expect(id).toBeGreaterThan(manifestOf(shop).lastIds.Customer as number);
      await expect(
        copy.write((tx) => tx.invoice.update({ where: { id: shop.invoiceId }, data: { grossMinor: 1 } })),
      ).rejects.toThrow();
    }
    expect([await allRows(a.database), await allRows(b.database)]).toEqual(before);
  });

  it("brings rows of an earlier version up to date", async () => {
    const level = migrations("shop", "sqlite").at(-2)?.name as string;
    await createShopDatabaseAt({ database: "earlier", server: "" }, level);
    const file = join(dataFolder(), "earlier.zip");
    const shop = { slug: "earlier", name: "Earlier", database: "earlier", server: "" };
    // The settings of a real shop, so that its books can be looked at.
    await takeSettings(a.database, shop.database);
    expect(await exportShop(shop, file, a.now)).toMatchObject({ level });
    const made = await importShop(file, { slug: "earlier-again", owner: a.ownerEmail }, a.now);
    expect((await exportShop({ ...shop, database: made.database }, `${file}.2`, a.now)).level).toBe(
      migrations("shop", postgresUrl() ? "postgresql" : "sqlite").at(-1)?.name,
    );
  }, 120_000);
});

describe("a file that is no whole export", () => {
  const slug = "refused";
  const shopsNow = async () => ({
    directory: await directory().read.shop.count(),
    making: await directory().read.shopInMaking.count(),
    files: [join(dataFolder(), "shops"), join(dataFolder(), "files")].map(
      (folder) => readdirSync(folder).length,
    ),
  });

  /** The archive of shop a with some of its files changed, its manifest as it says of them or as it was. */
  async function changed(
    change: (zip: Map<string, Buffer>, manifest: ShopManifest) => void,
  ): Promise<Buffer> {
    const zip = await unzipped(fileOf(a));
    const manifest = JSON.parse(String(zip.get("manifest.json"))) as ShopManifest;
    change(zip, manifest);
    zip.set("manifest.json", Buffer.from(JSON.stringify(manifest)));
    return zipped(zip);
  }
  const told = (manifest: ShopManifest, name: string, bytes: Buffer) =>
    Object.assign(manifest.files.find((one) => one.name === name) ?? {}, {
      bytes: bytes.length,
      sha256: sha256(bytes),
    });

  const cases: [string, () => Promise<Buffer>, RegExp][] = [
    ["cut off", async () => (await changed(() => {})).subarray(0, 5_000), /no whole export/],
    ["no zip", async () => Buffer.from("a,b\r\n1,2\r\n"), /no whole export/],
    [
      "with a picture changed",
      () =>
        changed(
          (zip) => void zip.get([...zip.keys()].find((n) => n.startsWith("photos/")) ?? "")?.fill(1, 9, 20),
        ),
      /has been changed/,
    ],
    [
      "with a table's file that nobody reads changed",
      () => changed((zip) => void zip.get("csv/Customer.csv")?.fill("x", 0, 1)),
      /has been changed/,
    ],
    [
      "with a row changed and its file's digest made anew",
      () =>
        changed((zip, manifest) => {
          const bytes = Buffer.from(
            String(zip.get("json/Payment.ndjson")).replace(/"amountMinor":\d/, '"amountMinor":9'),
          );
          zip.set("json/Payment.ndjson", bytes);
          told(manifest, "json/Payment.ndjson", bytes);
        }),
      /not what they were: Payment/,
    ],
    [
      "with a column too many",
      () =>
        changed((zip, manifest) => {
          const bytes = Buffer.from(String(zip.get("json/Customer.ndjson")).replaceAll("{", '{"more":1,'));
          zip.set("json/Customer.ndjson", bytes);
          told(manifest, "json/Customer.ndjson", bytes);
        }),
      /not the columns/,
    ],
    [
      "with a file too many",
      () => changed((zip) => void zip.set("csv/More.csv", Buffer.from("a"))),
      /does not tell of/,
    ],
    [
      "with a name of another kind",
      () => changed((zip) => void zip.set("notes.txt", Buffer.from("a"))),
      /named "notes.txt"/,
    ],
    [
      "that leads out of its folder",
      async () => {
        const bytes = await changed((zip) => void zip.set("csv/xxxxxxx.csv", Buffer.from("a")));
        const text = bytes.toString("latin1").replaceAll("csv/xxxxxxx.csv", "../../../x.csv1");
        return Buffer.from(text, "latin1");
      },
      /no whole export/,
    ],
    ["without a table", () => changed((zip) => void zip.delete("json/Customer.ndjson")), /is missing/],
    [
      "of a newer version",
      () => changed((_, manifest) => Object.assign(manifest, { level: "9999_later" })),
      /newer Throttlewright/,
    ],
    [
      "that unpacks to a thousand times its size",
      () =>
        changed((zip, manifest) => {
          const bytes = Buffer.alloc(40 * 1024 * 1024, 0x20);
          zip.set("json/Once.ndjson", bytes);
          told(manifest, "json/Once.ndjson", bytes);
        }),
      /when unpacked/,
    ],
  ];

  it.each(cases)("is refused, and nothing is left of it: %s", async (_, make, why) => {
    const file = join(dataFolder(), "bad.zip");
    writeFileSync(file, await make());
    const was = await shopsNow();
    await expect(importShop(file, { slug, owner: a.ownerEmail }, a.now)).rejects.toThrow(why);
    expect(await shopsNow()).toEqual(was);
  });

  it("is refused before anything is read where the owner is nobody or the name is taken", async () => {
    await expect(importShop(fileOf(a), { slug, owner: "no@example.com" }, a.now)).rejects.toThrow(
      /Nobody here/,
    );
    await expect(importShop(fileOf(a), { slug: b.slug, owner: a.ownerEmail }, a.now)).rejects.toThrow();
    await expect(importShop(fileOf(a), { slug: "again-0", owner: a.ownerEmail }, a.now)).rejects.toThrow(
      /already/,
    );
  });
});

describe("an export that an owner asks for", () => {
  it("is made by a process of its own, once for each shop, kept for a day and then removed", async () => {
    await askForExport(a, a.shopId);
    await askForExport(a, a.shopId);
    await askForExport(b, b.shopId);
    expect(await exportOf(a.shopId, a.now)).toEqual({ state: "waiting", done: 0, of: 0 });
    expect(await directory().read.shopExport.count()).toBe(2);
    await exportRound(() => a.now);
    const made = await exportOf(a.shopId, a.now);
    if (made.state !== "ready") throw new Error(JSON.stringify(made));
    const kept = join(exportsFolder(), made.file);
    expect((await unzipped(kept)).size).toBe(manifestOf(a).files.length + 1);
    expect((await exportOf(b.shopId, a.now)).state).toBe("waiting");
    expect(await sweepExports(a.now)).toBe(0);
    expect(existsSync(kept)).toBe(true);
    const later = new Date(Date.now() + 3 * 86_400_000);
    expect(await sweepExports(later)).toBe(1);
    expect(existsSync(kept)).toBe(false);
    expect(await exportOf(a.shopId, later)).toEqual({ state: "none" });
    // It stands behind everything else that the machine does.
  }, 180_000);
});
