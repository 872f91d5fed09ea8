import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, relative } from "node:path";

/** A chunk that is shorter than this is as well loaded as referred to. */
const WORTH_IT = 2_000;

/**
 * Has equal chunks of Next.js's server refer to one of them. The build writes a chunk anew for each of the addresses that need it; Node
 * would keep the text of each, 3 MB for one of them eleven times. Answers how many were replaced.
 */
export function shareSameChunks(build: string): number {
  const folder = join(build, "server", "chunks");
  const first = new Map<string, string>();
  let replaced = 0;
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).sort();
  for (const file of names.filter((name) => name.endsWith(".js")).map((name) => join(folder, name))) {
    const text = readFileSync(file);
    if (text.length < WORTH_IT) continue;
    const digest = createHash("sha256").update(text).digest("hex");
    const same = first.get(digest);
    if (same === undefined) first.set(digest, file);
    else {
      const way = relative(dirname(file), same).replaceAll("\\", "/");
      writeFileSync(
        file,
        `module.exports=require(${JSON.stringify(way.startsWith(".") ? way : `./${way}`)});\n`,
      );
      replaced += 1;
    }
  }
  return replaced;
}
