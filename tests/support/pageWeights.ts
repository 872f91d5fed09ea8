import { gzipSync } from "node:zlib";

/** What a page weighs, in bytes: its document as sent and as packed, and the packed scripts it brings. */
export interface Weight {
  readonly raw: number;
  readonly packed: number;
  readonly script: number;
}

/** Most that a page may weigh: DEVELOPERS.md says how it is kept. */
export const MOST: Weight = { raw: 150_000, packed: 25_000, script: 165_000 };

/** What of `weight` is over its limit, in words. */
export function overLimit(weight: Weight, most: Weight = MOST): string[] {
  const kB = (bytes: number) => `${(bytes / 1000).toFixed(1)} kB`;
  return [
    weight.raw > most.raw && `${kB(weight.raw)} of HTML`,
    weight.packed > most.packed && `${kB(weight.packed)} of packed HTML`,
    weight.script > most.script && `${kB(weight.script)} of packed scripts`,
  ].filter((words) => words !== false);
}

/** Weighs documents. `get` answers the body at a path; each script is asked for once. */
export function scales(get: (path: string) => Promise<Buffer>): (html: Buffer) => Promise<Weight> {
  const known = new Map<string, Promise<number>>();
  return async (html) => {
    let script = 0;
    for (const path of scriptsOf(html.toString())) {
      const asked = known.get(path) ?? get(path).then((body) => gzipSync(body).length);
      known.set(path, asked);
      script += await asked;
    }
    return { raw: html.length, packed: gzipSync(html).length, script };
  };
}

/** Addresses of the scripts that a document names; what only old browsers load is left out. */
function scriptsOf(text: string): Set<string> {
  const named = new Set(
    [...text.matchAll(/\/_next\/static\/chunks\/[\w./~%-]+?\.js/g)].map(([path]) => path),
  );
  for (const [, path = ""] of text.matchAll(/<script[^>]*?src="([^"?]+)[^"]*"[^>]*?nomodule/gi))
    named.delete(path);
  return named;
}
