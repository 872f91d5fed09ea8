import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { projectRoot } from "./folders";

/** Set by every compiled script of ours (lib/server/compile.ts): the folder that all of them are in. */
const kept = globalThis as unknown as { readonly throttlewrightCompiled?: string };

export interface OwnScript {
  readonly file: string;
  /** What Node has to be told to run it. */
  readonly execArgv: readonly string[];
}

/**
 * How a script of ours, named by its source, is run in a process or thread of its own: compiled where this process runs compiled
 * code itself, else from its source by tsx, which takes a compiler of its own along (about 40 MB).
 */
export function ownScript(source: string): OwnScript {
  const folder = kept.throttlewrightCompiled;
  if (folder) return { file: join(folder, compiledName(source)), execArgv: [] };
  const loader = pathToFileURL(join(projectRoot, "node_modules/tsx/dist/loader.mjs")).href;
  return { file: join(projectRoot, source), execArgv: ["--import", loader] };
}

/** All compiled scripts lie in one folder, named by where their source is. */
export function compiledName(source: string): string {
  return `${source.replace(/\.ts$/, "").replaceAll("/", ".")}.mjs`;
}
