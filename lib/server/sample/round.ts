import { type ChildProcess, spawn } from "node:child_process";
import { randomUUID } from "node:crypto";
import { existsSync } from "node:fs";
import { constants, setPriority } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { noteSampleFailed, takeSampleToMake } from "@/lib/data/people/sampleShop";
import { projectRoot } from "@/lib/db/folders";
import { log } from "@/lib/log/log";

const HOLDER = randomUUID();
const LONGEST_MS = 5 * 60_000;
const FAILED = "It could not be made. Nothing of it is left.";

/**
 * Makes the sample shop that has waited longest, if any does: in a process of its own, behind the server's in priority, so that
 * no request waits for it. One at a time.
 */
export async function sampleRound(clock: () => Date): Promise<void> {
  if (!existsSync(join(projectRoot, "demo/sample.ts"))) return;
  const personId = await takeSampleToMake(HOLDER, clock());
  if (personId === null) return;
  const began = performance.now();
  const code = await ended(personId);
  const ms = Math.round(performance.now() - began);
  if (code === 0) return void log().info({ ms }, "A sample shop was made.");
  log().error({ ms, code }, "A sample shop could not be made.");
  await noteSampleFailed(personId, FAILED);
}

const MOST_MB = 768;

function ended(personId: string): Promise<number | null> {
  const child = spawn(
    process.execPath,
    [
      `--max-old-space-size=${MOST_MB}`,
      "--import",
      pathToFileURL(join(projectRoot, "node_modules/tsx/dist/loader.mjs")).href,
      join(projectRoot, "lib/server/sample/make.ts"),
      personId,
    ],
    { cwd: projectRoot, stdio: ["ignore", "inherit", "inherit"], timeout: LONGEST_MS, killSignal: "SIGKILL" },
  );
  lower(child);
  // The server's end is the child's end: what it was making is swept away by the next one.
  const stop = () => child.kill("SIGKILL");
  process.once("exit", stop);
  return new Promise((resolve) => {
    child.once("error", (cause) => {
      log().error({ err: cause }, "The process that makes a sample shop did not start.");
      resolve(null);
    });
    child.once("close", resolve);
  }).then((code) => {
    process.off("exit", stop);
    return code as number | null;
  });
}

function lower(child: ChildProcess): void {
  if (child.pid === undefined) return;
  try {
    setPriority(child.pid, constants.priority.PRIORITY_LOW);
  } catch (cause) {
    log().warn({ err: cause }, "The process that makes a sample shop runs at the server's own priority.");
  }
}
