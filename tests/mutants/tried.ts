import { readFileSync } from "node:fs";
import { relative } from "node:path";
import type { MutantResult } from "@stryker-mutator/api/core";
import { EQUIVALENT, type Equivalent } from "./equivalent.ts";
import { isWords } from "./words.ts";

/** One mutant as it came out. "words": a text for people, left out of the score. */
export interface Tried {
  readonly file: string;
  readonly at: string;
  readonly mutator: string;
  readonly from: string;
  readonly to: string;
  readonly fate: "killed" | "equivalent" | "open" | "words";
  readonly why?: string;
}

/** "RuntimeError": a test file could not even be loaded, which fails the run as a failed test does. */
const DEAD: ReadonlySet<string> = new Set(["Killed", "Timeout", "RuntimeError"]);

const oneSpace = (text: string) => text.replaceAll(/\s+/g, " ").trim();
const fits = (given: string, found: string) =>
  given.endsWith("…") ? found.startsWith(given.slice(0, -1)) : given === found;

function textAt(lines: readonly string[], { start, end }: MutantResult["location"]): string {
  const inside = lines.slice(start.line - 1, end.line);
  const last = inside.length - 1;
  inside[last] = (inside[last] ?? "").slice(0, end.column - 1);
  inside[0] = (inside[0] ?? "").slice(start.column - 1);
  return inside.join("\n");
}

/** What became of each mutant, and the entries of the list of equivalents that fit none that lives. */
export function judged(
  results: readonly MutantResult[],
  root: string,
): { readonly tried: readonly Tried[]; readonly stale: readonly Equivalent[] } {
  const used = new Set<Equivalent>();
  const files = new Set<string>();
  const tried = results.map((result): Tried => {
    const path = relative(root, result.fileName);
    const lines = readFileSync(result.fileName, "utf8").split("\n");
    const from = oneSpace(textAt(lines, result.location));
    const { start } = result.location;
    const file = path.replace("lib/domain/", "");
    const to = oneSpace(result.replacement ?? "");
    files.add(file);
    const base = { file, at: `${start.line}:${start.column}`, mutator: result.mutatorName, from, to };
    if (result.status === "Ignored" || (result.mutatorName === "StringLiteral" && isWords(from)))
      return { ...base, fate: "words" };
    if (DEAD.has(result.status)) return { ...base, fate: "killed" };
    const known = EQUIVALENT.find(
      (e) =>
        e.file === file &&
        fits(e.from, from) &&
        fits(e.to, to) &&
        (e.mutator === undefined || e.mutator === result.mutatorName) &&
        (e.near === undefined || (lines[start.line - 1] ?? "").includes(e.near)),
    );
    if (!known) return { ...base, fate: "open", why: result.status };
    used.add(known);
    return { ...base, fate: "equivalent", why: known.why };
  });
  return { tried, stale: EQUIVALENT.filter((e) => files.has(e.file) && !used.has(e)) };
}
