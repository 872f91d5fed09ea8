import { type ChildProcess, spawn } from "node:child_process";
import { appendFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { createInterface } from "node:readline";

export const bin = (name: string) => join(process.cwd(), "node_modules/.bin", name);

export interface OwnServer {
  /** Ends it gently and waits until it has gone. */
  stop(): Promise<void>;
}

/** Where such a server writes what its log says of requests, for whoever asks what they asked of the databases. */
export const requestsOf = (data: string) => join(data, "requests.log");

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
      // Nothing runs beside the tests. Of its log, what is wrong is told.
      BACKUP: "off",
      LOG_LEVEL: "info",
      ...settings,
    },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const ended = new Promise<number>((resolve) => server.once("exit", (code) => resolve(code ?? 1)));
  await up(server, ended, requestsOf(data));
  return {
    stop: async () => {
      server.kill("SIGTERM");
      await ended;
    },
  };
}

async function up(server: ChildProcess, ended: Promise<number>, requests: string): Promise<void> {
  const answering = new Promise<void>((resolve) => {
    if (!server.stdout) throw new Error("The server's log cannot be read.");
    createInterface({ input: server.stdout }).on("line", (line) => {
      if (line.includes('"msg":"request"')) appendFileSync(requests, `${line}\n`);
      if (!line.startsWith('{"level":"info"')) process.stdout.write(`${line}\n`);
      if (line.includes("Stop with Ctrl+C")) resolve();
    });
  });
  const gone = ended.then((code) => {
    throw new Error(`The server ended with ${code} before it was up.`);
  });
  await Promise.race([answering, gone]);
  gone.catch(() => undefined);
}
