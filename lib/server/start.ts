import { spawn } from "node:child_process";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Prepared } from "./prepare";

// npm start. A process of its own prepares; this one then serves, with what was compiled and nothing left over. Node runs this file
// as it stands, so it imports nothing of ours but types.

const SIGNALS = ["SIGINT", "SIGTERM"] as const;
const root = join(import.meta.dirname, "../..");
const loader = pathToFileURL(join(root, "node_modules/tsx/dist/loader.mjs")).href;

function prepared(): Promise<Prepared> {
  const child = spawn(process.execPath, ["--import", loader, join(import.meta.dirname, "prepareApart.ts")], {
    stdio: ["ignore", "inherit", "inherit", "ipc"],
    serialization: "advanced",
  });
  const pass = (signal: NodeJS.Signals) => child.kill(signal);
  for (const signal of SIGNALS) process.on(signal, pass);
  return new Promise((resolve) => {
    let found: Prepared | undefined;
    child.once("message", (told) => {
      found = told as Prepared;
    });
    child.once("close", (code, signal) => {
      for (const one of SIGNALS) process.off(one, pass);
      if (code === 0 && found) return resolve(found);
      if (signal) process.kill(process.pid, signal);
      else process.exit(code || 1);
    });
  });
}

const all = await prepared();
const { run } = (await import(
  pathToFileURL(join(all.compiled, "lib.server.run.mjs")).href
)) as typeof import("./run");
await run(all, false);
