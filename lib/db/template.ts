import { randomBytes } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { Refusal } from "@/lib/domain/refusal";
import { waitForLock } from "./folderLock";
import { dataFolder } from "./folders";
import { applyMigrations, migrations } from "./migrations";
import { schemaDigest } from "./schemaFiles";

const LONGEST_MS = 60_000;

/** An empty, migrated shop file that new shops are copied from. Made once, whoever asks first: the others wait for it. */
export async function shopTemplate(): Promise<string> {
  const folder = dataFolder();
  const file = join(folder, `template-${schemaDigest()}-${migrations("shop", "sqlite").length}.sqlite`);
  if (existsSync(file)) return file;
  mkdirSync(folder, { recursive: true });
  const lock = await waitForLock(join(folder, "template.lock"), "alone", LONGEST_MS);
  if (!lock)
    throw new Refusal(
      "The server is still preparing its first shop.",
      "Nothing was made. Try again in a minute.",
    );
  try {
    if (!existsSync(file)) await make(folder, file);
    return file;
  } finally {
    lock.release();
  }
}

/** Under a name of its own until it is whole. What else bears the name is of older versions, or of a process that was killed. */
async function make(folder: string, file: string): Promise<void> {
  for (const old of readdirSync(folder))
    if (/^template-/.test(old)) rmSync(join(folder, old), { force: true });
  const making = `${file}.${process.pid}-${randomBytes(4).toString("hex")}`;
  await applyMigrations("shop", { provider: "sqlite", file: making });
  keepWriteAheadLog(making);
  renameSync(making, file);
}

/** WAL is a property of the file: set once, so that a read-only connection may be the first to open it. */
export function keepWriteAheadLog(file: string): void {
  const raw = new Database(file);
  try {
    raw.pragma("journal_mode = WAL");
  } finally {
    raw.close();
  }
}
