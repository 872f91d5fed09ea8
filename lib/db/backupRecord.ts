import { readFileSync, renameSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { dataFolder } from "./folders";

/** How the last backup went, as far as one shop is concerned. */
export interface ShopCopy {
  readonly triedAt: string;
  /** Sentences of what was wrong the last time; empty where it was copied, opened and checked. */
  readonly problems: readonly string[];
  /** When its last good copy was made, and how large that is with its photos. */
  readonly goodAt: string | null;
  readonly bytes: number;
}

export interface LastBackup {
  readonly beganAt: string;
  readonly endedAt: string;
  readonly folder: string;
  readonly bytes: number;
  readonly shops: number;
  /** How many shops could not be copied, or did not pass their check. */
  readonly bad: number;
  /** Why it was not made at all. */
  readonly failed?: string;
}

export interface BackupRecord {
  /** When backups began to be looked after here: what has none is not late before its time. */
  readonly since: string;
  readonly last: LastBackup | null;
  readonly shops: Readonly<Record<string, ShopCopy>>;
}

function backupRecordFile(): string {
  return join(dataFolder(), "last-backup.json");
}

let read: { file: string; stamp: string; record: BackupRecord } | undefined;

/** What is known of backups of this data folder; null where none was ever begun. Read again only when it has changed. */
export function backupRecord(): BackupRecord | null {
  const file = backupRecordFile();
  const found = statSync(file, { throwIfNoEntry: false });
  if (!found) return null;
  const stamp = `${found.mtimeMs} ${found.size} ${found.ino}`;
  if (read?.file !== file || read.stamp !== stamp)
    read = { file, stamp, record: JSON.parse(readFileSync(file, "utf8")) as BackupRecord };
  return read.record;
}

/** Written whole or not at all. */
export function keepBackupRecord(record: BackupRecord): void {
  const file = backupRecordFile();
  const making = `${file}.${process.pid}`;
  writeFileSync(making, JSON.stringify(record), { mode: 0o600 });
  renameSync(making, file);
}
