import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { configuration } from "@/lib/configuration/configuration";

const SOURCE = "app/_ui/offline/worker.ts";

/** Where the start keeps it, in the production build. */
export const keptWorkerScript = () => inBuild("offline-worker.js");

const inBuild = (name: string) => join(process.cwd(), configuration().NEXT_DIST, name);

let made: Promise<string> | undefined;

/** The service worker as one script: as the start has made it for a server that runs compiled, else made once a process. */
export function workerScript(): Promise<string> {
  made ??=
    "throttlewrightCompiled" in globalThis
      ? Promise.resolve(readFileSync(keptWorkerScript(), "utf8"))
      : makeWorkerScript();
  return made;
}

/** Makes it; it carries the build's name. The compiler is a process of its own, which ends with this. */
export async function makeWorkerScript(): Promise<string> {
  const stamp = inBuild("BUILD_ID");
  const name = existsSync(stamp) ? readFileSync(stamp, "utf8").trim() : "dev";
  const { build, stop } = await import("esbuild");
  try {
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
  } finally {
    await stop();
  }
}
