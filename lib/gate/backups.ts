import { configuration } from "@/lib/configuration/configuration";
import { backupRecord } from "@/lib/db/backupRecord";
import { postgresUrl } from "@/lib/db/folders";
import { isLate } from "@/lib/domain/backup/schedule";

export interface BackupStanding {
  /** False where the server's owner keeps copies in another way (BACKUP=off, or PostgreSQL), and nothing is known of them. */
  readonly known: boolean;
  /** When the last good copy was made, and how large it is with its photos. */
  readonly goodAt: Date | null;
  readonly bytes: number;
  /** When it was last tried, and what was wrong then. */
  readonly triedAt: Date | null;
  readonly problems: readonly string[];
  /** True where there has been no good copy for two days. */
  readonly late: boolean;
}

/** How this shop's backup stands. */
export function backupOf(database: string, now: Date): BackupStanding {
  const record = postgresUrl() ? null : backupRecord();
  const copy = record?.shops[database];
  const goodAt = copy?.goodAt ? new Date(copy.goodAt) : null;
  const since = record ? Date.parse(record.since) : now.getTime();
  const known = record !== null && (configuration().BACKUP || record.last !== null);
  return {
    known,
    goodAt,
    bytes: copy?.bytes ?? 0,
    triedAt: copy ? new Date(copy.triedAt) : null,
    problems: copy?.problems ?? [],
    late: known && isLate(goodAt?.getTime() ?? null, since, now.getTime()),
  };
}
