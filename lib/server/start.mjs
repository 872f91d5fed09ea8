import { spawn } from "node:child_process";
import { totalmem } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";

// npm start. A process of its own prepares; this one then serves, with what was compiled and nothing left over. It is no TypeScript,
// since Node's own stripper of types would stay in it (about 20 MB).

const SIGNALS = /** @type {const} */ (["SIGINT", "SIGTERM"]);
const own = import.meta.dirname;
const loader = pathToFileURL(join(own, "../../node_modules/tsx/dist/loader.mjs")).href;

/**
 * Memory that the GNU C library keeps for itself once V8's compilers have given it back is 60 MB and more. It is told of that as a
 * process starts, so this one starts anew in its place. Others, such as musl, do not know the words.
 */
function thrifty() {
  const small = Math.min(process.constrainedMemory() || Number.POSITIVE_INFINITY, totalmem()) < 2 ** 30;
  if (!small || process.platform !== "linux" || process.env.MALLOC_TRIM_THRESHOLD_ !== undefined) return;
  process.execve?.(process.execPath, [process.execPath, ...process.execArgv, ...process.argv.slice(1)], {
    ...process.env,
    MALLOC_TRIM_THRESHOLD_: "131072",
    MALLOC_ARENA_MAX: "2",
  });
}

/** @returns {Promise<import("./prepare").Prepared>} */
function prepared() {
  const child = spawn(process.execPath, ["--import", loader, join(own, "prepareApart.ts")], {
    stdio: ["ignore", "inherit", "inherit", "ipc"],
    serialization: "advanced",
  });
  /** @param {NodeJS.Signals} signal */
  const pass = (signal) => child.kill(signal);
  for (const signal of SIGNALS) process.on(signal, pass);
  return new Promise((resolve) => {
    /** @type {import("./prepare").Prepared | undefined} */
    let found;
    child.once("message", (told) => {
      found = told;
    });
    child.once("close", (code, signal) => {
      for (const one of SIGNALS) process.off(one, pass);
      if (code === 0 && found) resolve(found);
      else if (signal) process.kill(process.pid, signal);
      else process.exit(code || 1);
    });
  });
}

thrifty();
const all = await prepared();
const { run } = await import(pathToFileURL(join(all.compiled, "lib.server.run.mjs")).href);
await run(all, false);
