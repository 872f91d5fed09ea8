import { tellChanges } from "@/lib/db/changes";
import { closeDirectory } from "@/lib/db/directory";
import { closePool } from "@/lib/db/pools";
import { closeShops } from "@/lib/db/shop";
import { closeWorkers } from "@/lib/workers/pool";

/** The gentle end of a process of the server: its databases are closed. */
export async function leave(): Promise<void> {
  await closeWorkers();
  // What is not told is found by the daily look.
  await tellChanges().catch(() => undefined);
  await closeShops();
  await closeDirectory();
  await closePool();
  process.exit(0);
}
