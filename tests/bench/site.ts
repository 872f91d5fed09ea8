import { type ChildProcess, fork } from "node:child_process";
import { cpSync, existsSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { sessionCookie } from "../support/session";
import type { Measured } from "./load/server";
import { RequestLines } from "./requestLines";

const PORT = Number(process.env.BENCH_PORT ?? 3492);
const PASSWORD = "bench-slide-float-3141";
const KEPT = join(".bench", "demo");

/** A running server with the demo shops and their eighteen months, and the owner of one of them signed in. */
export interface BenchSite {
  readonly base: string;
  readonly cookie: string;
  readonly lines: RequestLines;
  /** How the server's event loop, memory and processor were since it was last asked to begin anew. */
  measured(begin: "anew" | "how"): Promise<Measured>;
}

interface Server {
  readonly lines: RequestLines;
  readonly process: ChildProcess;
  stop(): Promise<void>;
}

/** Runs what asks a server of the bench's own: another process, with data in `folder` and a build with pages to compare with. */
export async function withSite<T>(folder: string, run: (site: BenchSite) => Promise<T>): Promise<T> {
  await layDemo(folder);
  const server = await started(folder);
  try {
    const base = `http://localhost:${PORT}`;
    return await run({
      base,
      lines: server.lines,
      cookie: await sessionCookie(base, "saltpanOwner", PASSWORD),
      measured: (begin) =>
        new Promise((resolve) => {
          server.process.once("message", (told) => resolve(told as Measured));
          server.process.send(begin);
        }),
    });
  } finally {
    await server.stop();
  }
}

/** Puts demo shops into `folder`: those that were made today, or new ones, kept for the next run of this day. */
async function layDemo(folder: string): Promise<void> {
  const kept = join(KEPT, new Date().toISOString().slice(0, 10));
  if (!existsSync(kept)) {
    rmSync(KEPT, { recursive: true, force: true });
    await (await started(folder)).stop();
    cpSync(folder, `${kept}.part`, { recursive: true });
    renameSync(`${kept}.part`, kept);
    return;
  }
  cpSync(kept, folder, { recursive: true });
}

async function started(folder: string): Promise<Server> {
  const server = fork(join(import.meta.dirname, "load/server.ts"), {
    env: {
      ...process.env,
      ENV_FILE: "off",
      BENCH_BUILD: "on",
      PORT: String(PORT),
      DATA_DIR: folder,
      DEMO_PASSWORD: PASSWORD,
      PUBLIC_TRIES: "500",
      WEB_PROCESSES: "1",
      BACKUP: "off",
      LOG_LEVEL: "info",
    },
    stdio: ["ignore", "pipe", "inherit", "ipc"],
  });
  const ended = new Promise<void>((resolve) => server.once("exit", () => resolve()));
  const lines = new RequestLines(server.stdout as NonNullable<typeof server.stdout>);
  const stop = async () => {
    if (server.exitCode === null) server.kill("SIGTERM");
    await ended;
  };
  try {
    await new Promise<void>((resolve, reject) => {
      server.once("message", () => resolve());
      server.once("exit", (code) => reject(new Error(`The server ended with ${code} before it was up.`)));
    });
  } catch (cause) {
    await stop();
    throw cause;
  }
  return { lines, process: server, stop };
}
