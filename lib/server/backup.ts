import { join, resolve } from "node:path";
import { say } from "@/lib/log/say";
import { dropOldBackups, makeBackup } from "./backup/make";
import { backupPlan } from "./backup/plan";
import { command } from "./command";

/**
 * The command: a backup into the named folder, or into a dated one beside the others. With --keep, as the server runs it,
 * those that need no longer be kept go afterwards.
 */
async function backup(): Promise<number> {
  const plan = backupPlan();
  const named = process.argv.slice(2).find((word) => !word.startsWith("--"));
  const stamp = new Date().toISOString().replace(/[:.]/g, "-");
  const made = await makeBackup(
    named ? resolve(named) : join(plan.folder, stamp),
    (shop, { done, of, before }) => {
      const well = before ? "copied before the last backup was cut off" : "copied, opened and checked";
      say(`${done} of ${of}  ${shop.slug}: ${shop.problems.length === 0 ? well : shop.problems.join(" ")}`);
    },
  );
  const bad = made.shops.filter((shop) => shop.problems.length);
  say(`Backup of ${made.shops.length - bad.length} of ${made.shops.length} shops in ${made.folder}.`);
  say(`To put it back: stop the server, then npm run restore -- ${made.folder}`);
  if (process.argv.includes("--keep")) {
    const gone = dropOldBackups(plan.folder, plan.keepDays, plan.keepWeeks);
    if (gone.length) say(`Removed ${gone.length} that need no longer be kept.`);
  }
  return bad.length ? 1 : 0;
}

await command(backup);
