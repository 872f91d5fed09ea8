import { copyFileSync, cpSync, existsSync, mkdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import Database from "better-sqlite3";
import { problemsOf } from "@/lib/data/books/invariants";
import { sqliteClient } from "@/lib/db/clients";
import { migrateFile } from "@/lib/db/migrate";
import type { ShopPlace } from "@/lib/db/servers";
import { Refusal } from "@/lib/domain/refusal";
import { type FileStore, folderStore } from "@/lib/outside/fileStore";
import { photoBucket } from "@/lib/outside/photoStore";
import { asOneFile, damageOf, digestOf, readCopy } from "../backup/copyDatabase";
import { manifestOf } from "../backup/make";

export interface ShopRow extends ShopPlace {
  readonly id: string;
}

export interface Staged extends ShopRow {
  /** Why it cannot be put back; null where it is whole. */
  readonly damage: string | null;
  /** What does not add up in its books or photos. */
  readonly problems: readonly string[];
}

/** The file and the folder of a shop, relative to a data folder and to a copy of one alike. */
export const shopNames = (database: string) => [`shops/${database}.sqlite`, `files/${database}`] as const;

/** Brings the copy's directory to `making`, up to date and whole. Refuses one that is not. */
export async function stageDirectory(copy: string, making: string): Promise<void> {
  const name = "directory.sqlite";
  if (!existsSync(join(copy, name)))
    throw new Refusal(
      `There is no backup in ${copy}: it holds no ${name}.`,
      "Name the folder of a backup. Nothing was changed.",
    );
  const damage = await bring("directory", copy, making, name);
  if (damage)
    throw new Refusal(
      `The directory of this copy cannot be put back. ${damage}`,
      "Take an earlier copy. Nothing was changed.",
    );
  await forgetShopsInMaking(join(making, name));
}

/** Who was making a shop when the copy was made is not at it any more, and its database may be another's by now. */
async function forgetShopsInMaking(file: string): Promise<void> {
  const client = sqliteClient("directory", file, false);
  try {
    await client.shopInMaking.deleteMany();
  } finally {
    await client.$disconnect();
  }
  forgetLooks(file);
  asOneFile(file);
}

/** The rounds look anew at a shop whose database comes from a copy, or at all: what the directory knows is of another state. */
export function forgetLooks(file: string, shopId?: string): void {
  const raw = new Database(file);
  try {
    // A directory of an older version knows nothing that is due.
    if (!raw.prepare(`SELECT 1 FROM sqlite_master WHERE name = 'DueWork'`).get()) return;
    if (shopId === undefined) raw.exec(`DELETE FROM "DueWork"`);
    else raw.prepare(`DELETE FROM "DueWork" WHERE "shopId" = ?`).run(shopId);
  } finally {
    raw.close();
  }
}

/** Brings one shop's database and pictures to `making`, whole, up to date and checked; what is wrong is in the answer. */
export async function stageShop(copy: string, making: string, shop: ShopRow): Promise<Staged> {
  const [file, files] = shopNames(shop.database);
  const damage = changedSince(copy, shop) ?? (await bring("shop", copy, making, file));
  if (damage) {
    rmSync(join(making, file), { force: true });
    return { ...shop, damage, problems: [] };
  }
  const stays = photoBucket() !== null || !existsSync(join(copy, files));
  if (!stays) cpSync(join(copy, files), join(making, files), { recursive: true });
  const pictures = folderStore(join(stays ? copy : making, files));
  const problems = await booksOf(join(making, file), shop.slug, pictures);
  asOneFile(join(making, file));
  return { ...shop, damage: null, problems };
}

/** What does not add up in a shop's file and pictures, wherever they lie. */
export async function booksOf(file: string, slug: string, pictures: FileStore): Promise<string[]> {
  return readCopy(file, slug, dirname(file), (copy) => problemsOf(copy, pictures));
}

/** Copies one database, with its log where it has one, and makes it whole. Answers the damage found. */
async function bring(
  kind: "directory" | "shop",
  copy: string,
  making: string,
  name: string,
): Promise<string | null> {
  const from = join(copy, name);
  const to = join(making, name);
  if (!existsSync(from)) return "The copy does not hold its file.";
  mkdirSync(dirname(to), { recursive: true });
  copyFileSync(from, to);
  // A folder that was copied by hand, or left by a server that was killed, has what came last in the log.
  if (existsSync(`${from}-wal`)) copyFileSync(`${from}-wal`, `${to}-wal`);
  try {
    asOneFile(to);
    const damage = damageOf(to);
    if (damage) return damage;
    await migrateFile(kind, to, () => {}, name);
    asOneFile(to);
    return null;
  } catch (cause) {
    if (/ENOSPC|SQLITE_FULL|disk is full/.test(`${(cause as { code?: string }).code} ${String(cause)}`))
      throw full();
    return cause instanceof Refusal ? cause.message : `SQLite cannot read it: ${(cause as Error).message}.`;
  }
}

const full = () =>
  new Refusal(
    "The disk is full: the copy could not be laid ready.",
    "Free some space, then restore again. Nothing was changed.",
  );

/** A backup that says what it was made of is held to it. */
function changedSince(copy: string, { database }: ShopRow): string | null {
  const made = manifestOf(copy)?.shops.find((shop) => shop.database === database);
  const file = join(copy, shopNames(database)[0]);
  if (!made?.digest || !existsSync(file) || existsSync(`${file}-wal`)) return null;
  return digestOf(file) === made.digest ? null : "Its file has been changed since the backup was made.";
}

/** The shops that a directory's file knows. */
export async function shopsIn(file: string): Promise<ShopRow[]> {
  const read = sqliteClient("directory", file, true);
  try {
    // A directory of an older version knows no servers, and files are on none.
    const rows = await read.shop.findMany({
      select: { id: true, slug: true, database: true },
      orderBy: { id: "asc" },
    });
    return rows.map((row) => ({ ...row, server: "" }));
  } finally {
    await read.$disconnect();
  }
}
