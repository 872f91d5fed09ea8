import { join, resolve } from "node:path";
import { configuration } from "@/lib/configuration/configuration";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/folders";

export interface BackupPlan {
  /** Whether the server makes backups by itself. */
  readonly on: boolean;
  /** "HH:MM" on the server's clock. */
  readonly at: string;
  readonly folder: string;
  readonly keepDays: number;
  readonly keepWeeks: number;
}

/** What the settings say about backups. */
export function backupPlan(): BackupPlan {
  const { BACKUP, BACKUP_AT, BACKUP_DIR, BACKUP_KEEP_DAYS, BACKUP_KEEP_WEEKS } = configuration();
  return {
    on: BACKUP && !postgresUrl(),
    at: BACKUP_AT,
    folder: BACKUP_DIR === undefined ? join(dataFolder(), "backups") : resolve(projectRoot, BACKUP_DIR),
    keepDays: BACKUP_KEEP_DAYS,
    keepWeeks: BACKUP_KEEP_WEEKS,
  };
}
