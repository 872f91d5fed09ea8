import { type ChildProcess, spawn } from "node:child_process";
import { constants, setPriority } from "node:os";
import { projectRoot } from "@/lib/db/folders";
import { ownScript } from "@/lib/db/ownScript";
import { log } from "@/lib/log/log";

const MOST_MB = 768;

/** Runs one of our scripts in a process of its own, behind the server's in priority, and answers how it ended. */
export function inProcess(
  script: string,
  words: readonly string[],
  longestMs: number,
): Promise<number | null> {
  const { file, execArgv } = ownScript(script);
  const child = spawn(process.execPath, [`--max-old-space-size=${MOST_MB}`, ...execArgv, file, ...words], {
    cwd: projectRoot,
    stdio: ["ignore", "inherit", "inherit"],
    timeout: longestMs,
    killSignal: "SIGKILL",
  });
  lower(child, script);
  // The server's end is the child's end: what it was making is swept away later.
  const stop = () => child.kill("SIGKILL");
  process.once("exit", stop);
  return new Promise<number | null>((resolve) => {
    child.once("error", (cause) => {
      log().error({ err: cause, script }, "A process of ours did not start.");
      resolve(null);
    });
    child.once("close", resolve);
  }).finally(() => process.off("exit", stop));
}

function lower(child: ChildProcess, script: string): void {
  if (child.pid === undefined) return;
  try {
    setPriority(child.pid, constants.priority.PRIORITY_LOW);
  } catch (cause) {
    log().warn({ err: cause, script }, "A process of ours runs at the server's own priority.");
  }
}
