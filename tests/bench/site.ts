import { type ChildProcess, fork } from "node:child_process";
import { join } from "node:path";
import { sessionCookie } from "../support/session";
import type { Measured } from "./load/server";
import { RequestLines } from "./requestLines";

const PORT = Number(process.env.BENCH_PORT ?? 3492);
const PASSWORD = "bench-slide-float-3141";

/** A running server with the demo shops and their eighteen months, and the owner of one of them signed in. */
export interface BenchSite {
  readonly base: string;
  readonly cookie: string;
  readonly lines: RequestLines;
  /** How the server's event loop, memory and processor were since it was last asked to begin anew. */
  measured(begin: "anew" | "how"): Promise<Measured>;
}

/** Runs what asks a server of the bench's own: another process, with data in `folder` and a build with pages to compare with. */
export async function withSite<T>(folder: string, run: (site: BenchSite) => Promise<T>): Promise<T> {
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
  try {
    await up(server);
    const base = `http://localhost:${PORT}`;
    return await run({
      base,
      lines,
      cookie: await sessionCookie(base, "saltpanOwner", PASSWORD),
      measured: (begin) =>
        new Promise((resolve) => {
          server.once("message", (told) => resolve(told as Measured));
          server.send(begin);
        }),
    });
  } finally {
    if (server.exitCode === null) server.kill("SIGTERM");
    await ended;
  }
}

function up(server: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once("message", () => resolve());
    server.once("exit", (code) => reject(new Error(`The server ended with ${code} before it was up.`)));
  });
}
