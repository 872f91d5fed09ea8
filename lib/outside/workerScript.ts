import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { build } from "esbuild";
import { configuration } from "@/lib/configuration/configuration";

const SOURCE = "app/_ui/offline/worker.ts";

let made: Promise<string> | undefined;

/** The service worker as one script, made once a process, in a process of its own. It carries the build's name. */
export function workerScript(): Promise<string> {
  made ??= bundle();
  return made;
}

async function bundle(): Promise<string> {
  const stamp = join(process.cwd(), configuration().NEXT_DIST, "BUILD_ID");
  const name = existsSync(stamp) ? readFileSync(stamp, "utf8").trim() : "dev";
  const { outputFiles } = await build({
    entryPoints: [join(process.cwd(), SOURCE)],
    bundle: true,
    minify: true,
    write: false,
    format: "iife",
    target: "es2022",
    define: { BUILD: JSON.stringify(name) },
    logLevel: "silent",
  });
  return outputFiles[0]?.text ?? "";
}
