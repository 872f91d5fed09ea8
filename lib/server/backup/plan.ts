import { isAbsolute, join } from "node:path";
import { dataFolder, postgresUrl, projectRoot } from "@/lib/db/places";
import { Refusal } from "@/lib/domain/refusal";

export interface BackupPlan {
  /** Whether the server makes backups by itself. */
  readonly on: boolean;
  /** "HH:MM" on the server's clock. */
  readonly at: string;
  readonly folder: string;
  readonly keepDays: number;
  readonly keepWeeks: number;
}

/** What the environment says about backups. Refuses what cannot be meant. */
export function backupPlan(): BackupPlan {
  const at = process.env.BACKUP_AT ?? "03:30";
  if (!/^([01]\d|2[0-3]):[0-5]\d$/.test(at))
    throw new Refusal(
      `BACKUP_AT is ${at}, which is no time of day.`,
      "Write it as hours and minutes, such as 03:30.",
    );
  const folder = process.env.BACKUP_DIR;
  return {
    on: process.env.BACKUP !== "off" && !postgresUrl(),
    at,
    folder: folder
      ? isAbsolute(folder)
        ? folder
        : join(projectRoot, folder)
      : join(dataFolder(), "backups"),
    keepDays: count("BACKUP_KEEP_DAYS", 14),
    keepWeeks: count("BACKUP_KEEP_WEEKS", 8),
  };
}

function count(name: string, usual: number): number {
  const given = process.env[name];
  if (given === undefined || given === "") return usual;
  if (!/^\d{1,4}$/.test(given) || Number(given) < 1)
    throw new Refusal(`${name} is ${given}.`, "Use a whole number from 1 to 9999.");
  return Number(given);
}
