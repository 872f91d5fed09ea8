import { existsSync } from "node:fs";
import { join } from "node:path";
import { problemsOf } from "@/lib/data/books/invariants";
import { postgresClient } from "@/lib/db/clients";
import { pooledUrl } from "@/lib/db/folders";
import { withDatabaseAlone } from "@/lib/db/inUsePostgres";
import { inPostgres } from "@/lib/db/postgres";
import type { ShopHandle } from "@/lib/db/shop";
import { hasTables } from "@/lib/db/shopFaults";
import { dropSchema } from "@/lib/db/shopSchema";
import { Refusal } from "@/lib/domain/refusal";
import { SYSTEM } from "@/lib/gate/handle";
import { say } from "@/lib/log/say";
import { type FileStore, folderStore } from "@/lib/outside/fileStore";
import { type Manifest, manifestOf } from "../../backup/make";
import { DIRECTORY_DUMP, shopDump } from "../../backup/postgres/copySchema";
import { demandPrograms } from "../../backup/postgres/programs";
import { type Asked, demandFit } from "../asked";
import { carryErasedRows } from "../erased";
import { givePictures, storeOf } from "../pictures";
import type { ShopRow, Staged } from "../stage";
import { coming, layReady } from "./layReady";
import { swap } from "./swap";

/**
 * Puts a copy's schemas back: each is laid ready beside the one it replaces, held to its backup and its books checked; then all take
 * their places in one transaction. Photos come before: their names are given once, so that those of what is replaced stay as well.
 */
export async function restoreSchemas(url: string, wanted: Asked): Promise<number> {
  demandPrograms("pg_restore", "psql");
  const manifest = demandCopy(wanted.copy);
  return withDatabaseAlone(url, async () => {
    const laid: string[] = [coming("directory")];
    try {
      await layDirectory(url, wanted.copy, manifest);
      const shops = await chosen(url, wanted);
      const staged: Staged[] = [];
      for (const shop of shops) {
        laid.push(coming(shop.database));
        const one = await stage(url, wanted.copy, manifest, shop);
        say(
          `${one.slug}: ${one.damage ?? (one.problems.length ? one.problems.join(" ") : "whole, and its books add up")}`,
        );
        staged.push(one);
      }
      demandFit(staged, wanted);
      return await putBack(url, wanted, staged);
    } finally {
      for (const schema of laid) await dropSchema(url, schema);
    }
  });
}

function demandCopy(copy: string): Manifest {
  const manifest = manifestOf(copy);
  if (manifest && existsSync(join(copy, DIRECTORY_DUMP))) return manifest;
  const files = existsSync(join(copy, "directory.sqlite"));
  throw new Refusal(
    files ? `The copy in ${copy} is of SQLite files.` : `There is no backup of PostgreSQL in ${copy}.`,
    files
      ? "Leave DATABASE_URL out to put it back. Nothing was changed."
      : "Name the folder of a backup. Nothing was changed.",
  );
}

async function layDirectory(url: string, copy: string, manifest: Manifest): Promise<void> {
  const { digest, rows } = manifest.directory ?? {};
  const file = join(copy, DIRECTORY_DUMP);
  const damage = await layReady(url, { kind: "directory", schema: "directory", file, digest, rows });
  if (damage)
    throw new Refusal(
      `The directory of this copy cannot be put back. ${damage}`,
      "Take an earlier copy. Nothing was changed.",
    );
  // Who was making a shop when the copy was made is not at it any more.
  await inPostgres(url, async (client) => {
    await client.query(`DELETE FROM "${coming("directory")}"."ShopInMaking"`);
    await carryErasedRows(client, "directory", coming("directory"));
  });
}

/** The shops to put back: all that the copy knows, or the one asked for, where both directories mean the same by it. */
async function chosen(url: string, { copy, slug }: Asked): Promise<ShopRow[]> {
  const all = await shopsIn(coming("directory"));
  if (slug === null) return all;
  const wanted = all.find((shop) => shop.slug === slug);
  if (!wanted)
    throw new Refusal(
      `The copy in ${copy} knows no shop “${slug}”.`,
      `It knows ${all.map((shop) => shop.slug).join(", ") || "none"}. Nothing was changed.`,
    );
  const known = await inPostgres(url, (client) => hasTables(client, "directory"));
  const ours = known ? (await shopsIn("directory")).find((shop) => shop.id === wanted.id) : undefined;
  if (ours?.database === wanted.database) return [wanted];
  throw new Refusal(
    `This database does not know the shop “${slug}” that the copy holds.`,
    "Restore everything (without --shop), or take an earlier copy. Nothing was changed.",
  );
}

async function shopsIn(schema: string): Promise<ShopRow[]> {
  const client = postgresClient("directory", pooledUrl() ?? "", schema, "read");
  try {
    const select = { id: true, slug: true, database: true } as const;
    return await client.shop.findMany({ select, orderBy: { id: "asc" } });
  } finally {
    await client.$disconnect();
  }
}

async function stage(url: string, copy: string, manifest: Manifest, shop: ShopRow): Promise<Staged> {
  if (!/^[a-z0-9_]+$/.test(shop.database)) throw new Error("Not a database name.");
  const { digest, rows } = manifest.shops.find(({ database }) => database === shop.database) ?? {};
  const file = join(copy, shopDump(shop.database));
  const damage = await layReady(url, { kind: "shop", schema: shop.database, file, digest, rows });
  const pictures = folderStore(join(copy, "files", shop.database));
  return {
    ...shop,
    damage,
    problems: damage ? [] : await booksOf(shop.slug, coming(shop.database), pictures),
  };
}

async function booksOf(slug: string, database: string, pictures: FileStore): Promise<string[]> {
  const read = postgresClient("shop", pooledUrl() ?? "", database, "read");
  try {
    const write = () => Promise.reject(new Error("A copy is only read."));
    const copy: ShopHandle = { slug, database, files: "", read, write, by: SYSTEM, now: new Date() };
    return await problemsOf(copy, pictures);
  } finally {
    await read.$disconnect();
  }
}

async function putBack(url: string, { copy, slug }: Asked, staged: readonly Staged[]): Promise<number> {
  const fit = staged.filter((shop) => shop.damage === null);
  for (const { database } of fit) await givePictures(copy, database);
  const stamp = new Date().toISOString().replace(/\D/g, "").slice(0, 14);
  const comes = fit.map(({ database }) => ({ schema: database, ready: coming(database) }));
  const whole = slug === null;
  const directory = whole ? [{ schema: "directory", ready: coming("directory") }] : [];
  const replaced = await swap(
    url,
    [...comes, ...directory],
    whole ? await strange(url, staged) : [],
    (schema) => `replaced_${stamp}_${schema}`,
  );
  let wrong = 0;
  for (const shop of fit) {
    const problems = await booksOf(shop.slug, shop.database, storeOf(shop.database));
    wrong += problems.length;
    say(
      `${shop.slug}: put back${problems.length ? `, and these do not hold: ${problems.join(" ")}` : ", opened and checked"}`,
    );
  }
  if (replaced.length)
    say(
      `What was replaced is in the schemas replaced_${stamp}_…, ${replaced.length} of them. Drop them, one at a time, once all is well.`,
    );
  const left = staged.length - fit.length;
  if (left) say(`Left as they stand: ${left}.`);
  return wrong || left ? 1 : 0;
}

/** Shops that are here and that the copy does not know. */
async function strange(url: string, staged: readonly Staged[]): Promise<string[]> {
  if (!(await inPostgres(url, (client) => hasTables(client, "directory")))) return [];
  const known = new Set(staged.map(({ database }) => database));
  return (await shopsIn("directory")).map(({ database }) => database).filter((name) => !known.has(name));
}
