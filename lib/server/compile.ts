import { rmSync } from "node:fs";
import { join } from "node:path";
import { build, stop } from "esbuild";
import { projectRoot } from "@/lib/db/folders";
import { compiledName } from "@/lib/db/ownScript";

/** What a production server runs: itself, its workers, its threads, and what it starts in processes of their own. */
const SCRIPTS = [
  "lib/server/run.ts",
  "lib/server/processes/run.ts",
  "lib/server/backup.ts",
  "lib/server/backup/copyThread.ts",
  "lib/server/moving/makeExport.ts",
  "lib/server/sample/make.ts",
  "lib/db/cli/migrateApart.ts",
  "lib/workers/thread.ts",
];

/** In the folder of the production build. */
const FOLDER = "own";

export const compiledFolder = (build: string) => join(build, FOLDER);

/**
 * Compiles the scripts of a production server into `folder`, and `further` ones: run from source, each process and each thread of it
 * would take along a compiler. The compiler ends with this.
 */
export async function compileServer(folder: string, further: readonly string[] = []): Promise<void> {
  rmSync(folder, { recursive: true, force: true });
  try {
    await build({
      absWorkingDir: projectRoot,
      entryPoints: [...SCRIPTS, ...further].map((source) => ({
        in: source,
        out: compiledName(source).replace(/\.mjs$/, ""),
      })),
      outdir: folder,
      outExtension: { ".js": ".mjs" },
      bundle: true,
      splitting: true,
      packages: "external",
      format: "esm",
      platform: "node",
      target: "node24",
      minifySyntax: true,
      minifyWhitespace: true,
      sourcemap: "linked",
      sourcesContent: false,
      // Every file of it lies in this one folder, so that whichever is loaded first tells it.
      banner: { js: "globalThis.throttlewrightCompiled??=import.meta.dirname;" },
      logLevel: "silent",
    });
  } finally {
    await stop();
  }
}
