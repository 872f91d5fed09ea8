import { createHash } from "node:crypto";
import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  openSync,
  readSync,
  rmSync,
  statSync,
} from "node:fs";
import Database from "better-sqlite3";
import { isCurrent } from "@/lib/db/applied";
import { sqliteClient } from "@/lib/db/clients";
import { migrateFile } from "@/lib/db/migrate";
import type { ShopHandle } from "@/lib/db/shop";
import { SYSTEM } from "@/lib/gate/handle";

/** Copies a database while it is in use, as one whole file. Throws where the source or the copy is damaged. */
export function copyDatabase(from: string, to: string): void {
  const source = new Database(from, { readonly: true, fileMustExist: true });
  try {
    source.prepare("VACUUM INTO ?").run(to);
  } finally {
    source.close();
  }
  const damage = damageOf(to);
  if (damage) throw new Error(damage);
  asOneFile(to);
}

/** What SQLite finds wrong in a file, in a sentence; null for nothing. */
export function damageOf(file: string): string | null {
  if (!existsSync(file)) return "Its file is missing.";
  try {
    const raw = new Database(file, { readonly: true, fileMustExist: true });
    try {
      const found = String(raw.pragma("integrity_check(1)", { simple: true }));
      if (found !== "ok") return `SQLite finds it damaged: ${found}.`;
      const loose = raw.pragma("foreign_key_check") as unknown[];
      return loose.length ? `${loose.length} of its rows refer to rows that are not there.` : null;
    } finally {
      raw.close();
    }
  } catch (cause) {
    return `SQLite cannot read it: ${(cause as Error).message}.`;
  }
}

/** Makes one file of a database and what lies in its log beside it: a copy needs no `-wal`, and a stale one must not follow it. */
export function asOneFile(file: string): void {
  const raw = new Database(file);
  try {
    raw.pragma("journal_mode = WAL");
    raw.pragma("wal_checkpoint(TRUNCATE)");
  } finally {
    // The last connection that closes removes the log.
    raw.close();
  }
  for (const beside of [`${file}-wal`, `${file}-shm`]) rmSync(beside, { force: true });
  const handle = openSync(file, "r+");
  fsyncSync(handle);
  closeSync(handle);
}

/**
 * Reads a shop's copy as this version does, only to look: one of an older version is brought up to date in a file beside it,
 * which goes again. `files` is the folder of its pictures.
 */
export async function readCopy<T>(
  file: string,
  slug: string,
  files: string,
  look: (copy: ShopHandle) => Promise<T>,
): Promise<T> {
  if (isCurrent(file)) return reading(file, slug, files, look);
  const later = `${file}.looked-at`;
  copyFileSync(file, later);
  try {
    await migrateFile("shop", later, () => {}, slug);
    return await reading(later, slug, files, look);
  } finally {
    for (const name of [later, `${later}-wal`, `${later}-shm`]) rmSync(name, { force: true });
  }
}

async function reading<T>(
  file: string,
  slug: string,
  files: string,
  look: (copy: ShopHandle) => Promise<T>,
): Promise<T> {
  const read = sqliteClient("shop", file, true);
  try {
    const write = () => Promise.reject(new Error("A copy is only read."));
    return await look({ slug, database: slug, server: "", files, read, write, by: SYSTEM, now: new Date() });
  } finally {
    await read.$disconnect();
  }
}

/** The digest of a file's bytes, read piece by piece. */
export function digestOf(file: string): string {
  const hash = createHash("sha256");
  const piece = Buffer.alloc(1024 * 1024);
  const handle = openSync(file, "r");
  try {
    for (let got = readSync(handle, piece); got > 0; got = readSync(handle, piece))
      hash.update(piece.subarray(0, got));
  } finally {
    closeSync(handle);
  }
  return hash.digest("hex");
}

export const sizeOf = (file: string): number => statSync(file, { throwIfNoEntry: false })?.size ?? 0;
