import { spawn } from "node:child_process";
import { constants, setPriority } from "node:os";
import { environmentWith } from "@/lib/configuration/configuration";
import { backupRecord, keepBackupRecord } from "@/lib/db/backupRecord";
import { projectRoot } from "@/lib/db/folders";
import { ownScript } from "@/lib/db/ownScript";
import { isDue } from "@/lib/domain/backup/schedule";
import { log } from "@/lib/log/log";
import { keepFailure, recordSoFar } from "./make";
import type { BackupPlan } from "./plan";

const LOOK_MS = 5 * 60_000;
/** One that was not made at all, as of a full disk, is tried again sooner than the next day. */
const AGAIN_MS = 3_600_000;

/** Daily backups for as long as the server runs; what a sleeping server missed is made up for soon after its start. */
export function startBackups(plan: BackupPlan): void {
  if (!plan.on) return;
  if (!backupRecord()) keepBackupRecord(recordSoFar());
  let running = false;
  const look = () => {
    if (running || !dueNow(plan, Date.now())) return;
    running = true;
    runBackup(plan)
      .catch((cause: unknown) => log().error({ err: cause }, "The backup could not be started."))
      .finally(() => {
        running = false;
      });
  };
  setInterval(look, LOOK_MS).unref();
}

export function dueNow(plan: BackupPlan, now: number): boolean {
  const last = backupRecord()?.last;
  const began = last ? Date.parse(last.beganAt) : null;
  if (last?.failed && began !== null && now - began > AGAIN_MS) return true;
  const { timeZone } = new Intl.DateTimeFormat().resolvedOptions();
  return isDue(began, now, plan.at, timeZone);
}

/** One backup in a process of its own, behind everything else the machine has to do; writes one line of how it ended. */
export async function runBackup(plan: BackupPlan): Promise<void> {
  const began = performance.now();
  const beganAt = new Date().toISOString();
  const before = backupRecord()?.last?.beganAt;
  const { code, said } = await inChild();
  if (backupRecord()?.last?.beganAt === before)
    keepFailure(beganAt, plan.folder, `The backup ended with ${code}: ${said.trim().slice(-200)}`);
  const record = recordSoFar();
  const { last, shops } = record;
  const well = last !== null && !last.failed && last.bad === 0;
  const ms = Math.round(performance.now() - began);
  log()[well ? "info" : "error"]({ job: "backup", ms, ...last, ending: well ? "done" : "failed" }, "job");
  for (const [database, { problems }] of Object.entries(shops))
    if (problems.length)
      log().error({ job: "backup", database, problems: problems.slice(0, 5) }, "A shop has no good copy.");
}

function inChild(): Promise<{ code: string; said: string }> {
  const { file, execArgv } = ownScript("lib/server/backup.ts");
  const child = spawn(process.execPath, [...execArgv, file, "--keep"], {
    cwd: projectRoot,
    env: environmentWith({}),
    stdio: ["ignore", "ignore", "pipe"],
  });
  if (child.pid) lower(child.pid);
  const stop = () => child.kill("SIGTERM");
  process.once("exit", stop);
  let said = "";
  child.stderr.on("data", (chunk: Buffer) => {
    said = (said + chunk.toString()).slice(-2_000);
  });
  return new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("close", (code, signal) => {
      process.off("exit", stop);
      resolve({ code: String(signal ?? code), said });
    });
  });
}

/** Where the system does not allow it, the backup runs like anything else. */
function lower(pid: number): void {
  try {
    setPriority(pid, constants.priority.PRIORITY_LOW);
  } catch (cause) {
    log().debug({ err: cause }, "The backup runs at usual priority.");
  }
}
