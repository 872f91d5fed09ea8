import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fromBufferPromise } from "yauzl";
import { ZipFile } from "yazl";
import { postgresUrl } from "@/lib/db/folders";
import { postgresTarget } from "@/lib/db/rows/postgresRows";
import type { Row } from "@/lib/db/rows/rows";
import { sqliteTarget } from "@/lib/db/rows/sqliteRows";
import { shopFile } from "@/lib/db/shop";
import { sourceOf } from "@/lib/server/moving/fill";

export const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");

/** All files of a zip. */
export async function unzipped(file: string): Promise<Map<string, Buffer>> {
  const zip = await fromBufferPromise(readFileSync(file), { lazyEntries: true });
  const found = new Map<string, Buffer>();
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece);
    found.set(entry.fileName, Buffer.concat(pieces));
  }
  return found;
}

/** A zip of these files, as an archiver of somebody else's would write it. */
export async function zipped(files: Iterable<readonly [name: string, bytes: Buffer]>): Promise<Buffer> {
  const zip = new ZipFile();
  for (const [name, bytes] of files) zip.addBuffer(bytes, name);
  zip.end();
  const pieces: Buffer[] = [];
  for await (const piece of zip.outputStream) pieces.push(piece as Buffer);
  return Buffer.concat(pieces);
}

/** Every row of every table of a shop's database. */
export async function allRows(database: string, server = ""): Promise<Record<string, Row[]>> {
  const source = await sourceOf({ database, server });
  try {
    const found: Record<string, Row[]> = {};
    for (const table of await source.tables()) {
      const rows: Row[] = [];
      for await (const some of source.rows(table)) rows.push(...some);
      found[table.name] = rows;
    }
    return found;
  } finally {
    await source.close();
  }
}

/** Gives a database, of an earlier version too, the settings of another, as far as it knows them. */
export async function takeSettings(from: string, to: string): Promise<void> {
  const own = await allRows(to);
  const { Settings = [] } = await allRows(from);
  const source = await sourceOf({ database: to, server: "" });
  const lastIds = await source.lastIds();
  await source.close();
  const url = postgresUrl();
  const target = url ? await postgresTarget(url, to) : sqliteTarget(shopFile(to));
  try {
    for (const table of await target.tables())
      await target.put(table, (table.name === "Settings" ? Settings : own[table.name]) ?? []);
    await target.finish(lastIds);
  } finally {
    await target.close();
  }
}
