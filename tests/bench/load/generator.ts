import { spawn } from "node:child_process";
import { existsSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { cpuOf } from "../memoryOf";

export interface Asked {
  readonly base: string;
  readonly cookie: string;
  readonly paths: readonly string[];
  /** People who ask at once, each for the next page when they have the last. */
  readonly parallel: number;
  readonly seconds: number;
}

export interface Served {
  readonly asked: number;
  readonly errors: number;
  readonly p50: number;
  readonly p95: number;
}

const WRK = "/usr/bin/wrk";

/** wrk takes a twentieth of the processor that a client in JavaScript takes, which the server would lack on the same cores. */
export const generator = existsSync(WRK) ? "wrk" : "own client";

/** Asks a server steadily; answers what it served, and the seconds of processor that asking took. */
export async function steady(
  asked: Asked,
  folder: string,
): Promise<Served & { readonly cpuSeconds: number }> {
  const load = existsSync(WRK) ? byWrk(asked, folder) : byOwn(asked);
  let said = "";
  load.stdout?.on("data", (chunk: Buffer) => {
    said += chunk.toString();
  });
  // What has ended tells nothing any more.
  let cpuSeconds = 0;
  const pid = load.pid ?? 0;
  const watch = setInterval(() => {
    cpuSeconds = Math.max(cpuSeconds, cpuOf(pid));
  }, 100);
  const code = await new Promise((resolve) => load.once("close", resolve));
  clearInterval(watch);
  const told = said.split("\n").findLast((line) => line.startsWith("{"));
  if (code !== 0 || !told) throw new Error(`The load ended with ${code}: ${said.slice(-300)}`);
  return { ...(JSON.parse(told) as Served), cpuSeconds };
}

function byWrk({ base, cookie, paths, parallel, seconds }: Asked, folder: string) {
  const file = join(folder, "paths.txt");
  writeFileSync(file, paths.join("\n"));
  const words = ["-t1", `-c${parallel}`, `-d${seconds}s`, "--timeout", "30s"];
  return spawn(WRK, [...words, "-s", join(import.meta.dirname, "pages.lua"), base], {
    env: { ...process.env, PATHS: file, COOKIE: cookie },
    stdio: ["ignore", "pipe", "inherit"],
  });
}

function byOwn(asked: Asked) {
  const script = join(import.meta.dirname, "steady.ts");
  return spawn(process.execPath, ["--import", "tsx", script, JSON.stringify(asked)], {
    stdio: ["ignore", "pipe", "inherit"],
  });
}
