import { createReadStream, mkdirSync, rmSync } from "node:fs";
import { dirname } from "node:path";
import { filesFolder } from "@/lib/db/folders";
import { type TableDigest, tableHash } from "@/lib/db/rows/digest";
import { postgresSource } from "@/lib/db/rows/postgresRows";
import type { RowSource, Table } from "@/lib/db/rows/rows";
import { sqliteSource } from "@/lib/db/rows/sqliteRows";
import { directUrl, type ShopPlace } from "@/lib/db/servers";
import { shopFile } from "@/lib/db/shop";
import { photoFiles } from "@/lib/domain/photos/limits";
import type { FileStore } from "@/lib/outside/fileStore";
import { photoStore } from "@/lib/outside/photoStore";
import { copyDatabase } from "../backup/copyDatabase";
import {
  ARCHIVE_VERSION,
  csvName,
  MANIFEST_NAME,
  photoName,
  README_NAME,
  readmeText,
  rowsName,
  type ShopManifest,
  SQLITE_NAME,
} from "./archive";
import { csvHead, csvLine } from "./csvLines";
import { writeZip } from "./zipOut";

export interface ShopToExport extends ShopPlace {
  readonly name: string;
}

/** Told after each file that was put in: so many of so many. */
export type Progress = (done: number, of: number) => void;

/**
 * Writes all that a shop owns into one zip file, while it is used: its rows as they stood when this began, and the pictures that
 * those name. Of the server's directory nothing is in it. Answers what the archive says of itself.
 */
export async function exportShop(
  shop: ShopToExport,
  file: string,
  now: Date,
  progress: Progress = () => {},
): Promise<ShopManifest> {
  mkdirSync(dirname(file), { recursive: true });
  const url = directUrl(shop.server);
  if (url) {
    const source = await postgresSource(url, shop.database);
    return pack(shop, source, null, file, now, progress).finally(() => source.close());
  }
  const copy = `${file}.sqlite`;
  rmSync(copy, { force: true });
  try {
    copyDatabase(shopFile(shop.database), copy);
    const source = sqliteSource(copy);
    return await pack(shop, source, copy, file, now, progress).finally(() => source.close());
  } finally {
    for (const end of ["", "-wal", "-shm"]) rmSync(`${copy}${end}`, { force: true });
  }
}

async function pack(
  shop: ShopToExport,
  source: RowSource,
  copy: string | null,
  file: string,
  now: Date,
  progress: Progress,
): Promise<ShopManifest> {
  const tables = await source.tables();
  const lastIds = await source.lastIds();
  const store = photoStore({ database: shop.database, files: filesFolder(shop.database) });
  const there = new Set((await store.list()).map(({ name }) => name));
  const named = await photosOf(source, tables);
  const photos = named.filter((name) => there.has(name));
  const found: Record<string, TableDigest> = {};
  const madeAt = now.toISOString();
  const of = 2 * tables.length + photos.length + (copy ? 3 : 2);
  let made: ShopManifest | undefined;
  await writeZip(file, (zip, packed) => {
    const add: typeof zip.add = (name, parts, pressed) =>
      zip.add(
        name,
        () => {
          progress(packed.length, of);
          return parts();
        },
        pressed,
      );
    add(README_NAME, () => [readmeText(shop.name, madeAt, source.level)]);
    for (const table of tables) {
      add(csvName(table.name), () => csvOf(source, table));
      add(rowsName(table.name), () => rowsOf(source, table, found));
    }
    for (const photo of photos) add(photoName(photo), () => picture(store, photo), true);
    if (copy) add(SQLITE_NAME, () => createReadStream(copy));
    add(MANIFEST_NAME, () => {
      made = {
        format: "throttlewright-shop",
        version: ARCHIVE_VERSION,
        madeAt,
        shop: { slug: shop.slug, name: shop.name },
        database: copy ? "sqlite" : "postgresql",
        level: source.level,
        tables: found,
        lastIds,
        missingPhotos: named.filter((name) => !there.has(name)),
        files: [...packed],
      };
      return [JSON.stringify(made, null, 1)];
    });
  });
  progress(of, of);
  if (!made) throw new Error("The archive ended before it told what is in it.");
  return made;
}

async function photosOf(source: RowSource, tables: readonly Table[]): Promise<string[]> {
  const table = tables.find(({ name }) => name === "Photo");
  const names: string[] = [];
  if (table)
    for await (const rows of source.rows(table))
      for (const row of rows) names.push(...Object.values(photoFiles(String(row.file))));
  return names;
}

async function* csvOf(source: RowSource, table: Table): AsyncGenerator<string> {
  yield csvHead(table);
  for await (const rows of source.rows(table)) yield rows.map((row) => csvLine(table, row)).join("");
}

async function* rowsOf(
  source: RowSource,
  table: Table,
  found: Record<string, TableDigest>,
): AsyncGenerator<string> {
  const hash = tableHash(table);
  for await (const rows of source.rows(table)) {
    hash.add(rows);
    yield rows.map((row) => `${JSON.stringify(row)}\n`).join("");
  }
  found[table.name] = hash.done();
}

async function* picture(store: FileStore, name: string): AsyncGenerator<Uint8Array> {
  const bytes = await store.get(name);
  if (!bytes) throw new Error(`The picture ${name} went while it was being exported.`);
  yield bytes;
}
