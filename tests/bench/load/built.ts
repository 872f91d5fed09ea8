import { spawn } from "node:child_process";
import { join } from "node:path";
import { cpuOf, type Memory, memoryOf, textOf, treeOf } from "../memoryOf";

export const PASSWORD = "bench-slide-float-3141";

export interface Built {
  readonly base: string;
  readonly data: string;
  /** The processes that serve: its workers, or the server itself where it has none. */
  serving(): number[];
  /** What the server and all that it started have of memory now. */
  memory(): Memory;
  /** The same for each process, by what it is. */
  memoryOfEach(): readonly (Memory & { readonly name: string })[];
  /** The server and all that it started. */
  pids(): number[];
  /** Seconds of processor that the server and its children have taken. */
  cpuSeconds(): number;
  stop(): Promise<void>;
}

/** Where a server's data lies: `LOAD_DATA`, a folder with demo shops of this password, spares making them anew. */
export const dataIn = (folder: string) => process.env.LOAD_DATA ?? join(folder, "data");

/** A production server with demo shops in `data`, in so many processes, started by the command `under`, with `flags` for Node in each; resolves once it serves. */
export async function startBuilt(
  port: number,
  data: string,
  processes: number,
  settings: Readonly<Record<string, string>> = {},
  under: readonly string[] = [],
  flags: readonly string[] = [],
): Promise<Built> {
  const [command = "", ...words] = [...under, process.execPath, ...flags, "lib/server/start.mjs"];
  const server = spawn(command, words, {
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
    serving: () => (processes === 1 ? [pid] : treeOf(pid).filter(isWorker)),
    pids: () => treeOf(pid),
    memory: () => memoryOf(treeOf(pid)),
    memoryOfEach: () => treeOf(pid).map((one) => ({ name: nameOf(one, pid), ...memoryOf([one]) })),
    cpuSeconds: () => treeOf(pid).reduce((sum, one) => sum + cpuOf(one), 0),
    stop: async () => {
      server.kill("SIGTERM");
      await ended;
    },
  };
}

const commandOf = (pid: number) => textOf(`/proc/${pid}/cmdline`)?.replaceAll("\0", " ") ?? "";
const isWorker = (pid: number) => commandOf(pid).includes("lib.server.processes.run.mjs");

function nameOf(pid: number, server: number): string {
  if (pid === server) return "server";
  return isWorker(pid) ? "worker" : commandOf(pid).slice(0, 60);
}
