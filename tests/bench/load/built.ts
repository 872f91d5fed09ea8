import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export const PASSWORD = "bench-slide-float-3141";

export interface Built {
  readonly base: string;
  readonly data: string;
  /** The processes that serve: its workers, or the server itself where it has none. */
  serving(): number[];
  /** Bytes of memory that the server and its children have now, shared ones counted for each. */
  residentBytes(): number;
  /** Seconds of processor that the server and its children have taken. */
  cpuSeconds(): number;
  stop(): Promise<void>;
}

/** Where a server's data lies: `LOAD_DATA`, a folder with demo shops of this password, spares making them anew. */
export const dataIn = (folder: string) => process.env.LOAD_DATA ?? join(folder, "data");

/** A production server with demo shops in `data`, in so many processes; resolves once it serves. */
export async function startBuilt(
  port: number,
  data: string,
  processes: number,
  settings: Readonly<Record<string, string>> = {},
): Promise<Built> {
  const server = spawn(process.execPath, ["--import", "tsx", "lib/server/start.ts"], {
    env: {
      ...process.env,
      ENV_FILE: "off",
      PORT: String(port),
      DATA_DIR: data,
      WEB_PROCESSES: String(processes),
      DEMO_PASSWORD: PASSWORD,
      DEMO_HISTORY: "off",
      BACKUP: "off",
      LOG_LEVEL: "error",
      ...settings,
    },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise<void>((resolve) => server.once("exit", () => resolve()));
  const up = new Promise<void>((resolve) => {
    server.stdout.on("data", (said: Buffer) => {
      if (said.toString().includes("Stop with Ctrl+C")) resolve();
    });
  });
  const never = ended.then(() => {
    throw new Error("The server did not come up.");
  });
  never.catch(() => undefined);
  await Promise.race([up, never]);
  const pid = server.pid as number;
  return {
    base: `http://localhost:${port}`,
    data,
    serving: () => (processes === 1 ? [pid] : childrenOf(pid).filter(isWorker)),
    residentBytes: () => [pid, ...childrenOf(pid)].reduce((sum, one) => sum + residentOf(one), 0),
    cpuSeconds: () => [pid, ...childrenOf(pid)].reduce((sum, one) => sum + cpuOf(one), 0),
    stop: async () => {
      server.kill("SIGTERM");
      await ended;
    },
  };
}

/** Fields of /proc/<pid>/stat after the command's name, which may hold blanks (proc(5)). */
function statOf(pid: number): string[] {
  const text = readFileSync(`/proc/${pid}/stat`, "utf8");
  return text.slice(text.lastIndexOf(")") + 2).split(" ");
}

function childrenOf(parent: number): number[] {
  const pids = readdirSync("/proc").map(Number).filter(Number.isInteger);
  return pids.filter((pid) => {
    try {
      return Number(statOf(pid)[1]) === parent;
    } catch {
      // It has ended meanwhile.
      return false;
    }
  });
}

function isWorker(pid: number): boolean {
  return readFileSync(`/proc/${pid}/cmdline`, "utf8").includes("lib/server/processes/run.ts");
}

/** Linux counts in hundredths of a second. */
function cpuOf(pid: number): number {
  const stat = statOf(pid);
  return (Number(stat[11]) + Number(stat[12])) / 100;
}

/** In pages of 4 KiB, as everywhere that Linux runs on x86 and most of ARM. */
function residentOf(pid: number): number {
  return Number(statOf(pid)[21]) * 4096;
}
