import { readSettingsFile } from "@/lib/configuration/configuration";
import { tellChanges } from "@/lib/db/changes";
import { closeDirectory } from "@/lib/db/directory";
import { projectRoot } from "@/lib/db/folders";
import { closePool } from "@/lib/db/pools";
import { closeShops } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { complain } from "@/lib/log/say";

/**
 * Runs a command, settings first; `run` answers its exit code. What it writes is for its user alone, a Refusal is said in words,
 * and every database is closed at the end.
 */
export async function command(run: () => Promise<number>): Promise<void> {
  process.umask(0o077);
  try {
    readSettingsFile(projectRoot);
    process.exitCode = await run();
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    complain(`${cause.message} ${cause.remedy}`);
    process.exitCode = 1;
  } finally {
    await tellChanges().catch(() => undefined);
    await closeShops();
    await closeDirectory();
    await closePool();
  }
}
