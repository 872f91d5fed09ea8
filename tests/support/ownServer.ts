import { type ChildProcess, spawn } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import type { Readable } from "node:stream";

export const bin = (name: string) => join(process.cwd(), "node_modules/.bin", name);

export interface OwnServer {
  /** What it writes on its standard output: its log. */
  readonly log: Readable;
  /** Ends it gently and waits until it has gone. */
  stop(): Promise<void>;
}

/**
 * A production server of our own, with fresh demo shops in `data`; resolves once it answers. `settings` are added to its
 * environment.
 */
export function startOwnServer(
  port: number,
  data: string,
  password: string,
  settings: Readonly<Record<string, string>> = {},
): Promise<OwnServer> {
  rmSync(data, { recursive: true, force: true });
  return startServer(port, data, password, settings);
}

/** The same on what there is. */
export async function startServer(
  port: number,
  data: string,
  password: string,
  settings: Readonly<Record<string, string>>,
): Promise<OwnServer> {
  const server = spawn(bin("node"), ["lib/server/start.mjs"], {
    env: {
      ...process.env,
      ENV_FILE: "off",
      PORT: String(port),
      DATA_DIR: data,
      DEMO_PASSWORD: password,
      DEMO_HISTORY: "off",
      PUBLIC_TRIES: "500",
      // One starts quicker than two, and the browser keeps the other core busy.
      WEB_PROCESSES: "1",
      // Nothing runs beside the tests, and only what is wrong is told.
      BACKUP: "off",
      LOG_LEVEL: "warn",
      ...settings,
    },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise<number>((resolve) => server.once("exit", (code) => resolve(code ?? 1)));
  await up(server, ended);
  return {
    log: server.stdout,
    stop: async () => {
      server.kill("SIGTERM");
      await ended;
    },
  };
}

async function up(server: ChildProcess, ended: Promise<number>): Promise<void> {
  const answering = new Promise<void>((resolve) => {
    server.stdout?.on("data", (chunk: Buffer) => {
      process.stdout.write(chunk);
      if (chunk.toString().includes("Stop with Ctrl+C")) resolve();
    });
  });
  const gone = ended.then((code) => {
    throw new Error(`The server ended with ${code} before it was up.`);
  });
  await Promise.race([answering, gone]);
  gone.catch(() => undefined);
}
