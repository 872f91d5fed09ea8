// Mutation testing of lib/domain: npm run mutants -- [folder or folder/file.ts ...] [--changed] [--workers=2]
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { MutantResult } from "@stryker-mutator/api/core";
import { Stryker } from "@stryker-mutator/core";
import { type Part, SUBJECTS, TOO_LONG } from "./subjects.ts";
import { judged, type Tried } from "./tried.ts";

const root = join(import.meta.dirname, "../..");
const asked = process.argv.slice(2);
const changed = asked.includes("--changed");
const workers = Number(asked.find((a) => a.startsWith("--workers="))?.slice(10) ?? 1);
const names = asked.filter((a) => !a.startsWith("-"));

/** Files of lib/domain to change, by folder: names without ".ts". */
const wanted = new Map<string, string[]>();
for (const name of names.length > 0 ? names : Object.keys(SUBJECTS)) {
  const [folder = "", file] = name.replace(/\.ts$/, "").split("/");
  if (!SUBJECTS[folder]) {
    console.error(`"${folder}" is none of ${Object.keys(SUBJECTS).join(", ")}.`);
    process.exit(2);
  }
  const all = readdirSync(join(root, "lib/domain", folder)).map((one) => one.replace(/\.ts$/, ""));
  wanted.set(folder, [...(wanted.get(folder) ?? []), ...(file === undefined ? all : [file])]);
}

function testsOf(part: Part): string[] {
  const patterns = part.tests.map((name) => new RegExp(`^${name.replace("*", ".*")}$`));
  return readdirSync(join(root, "tests/domain"))
    .filter((name) => name.endsWith(".test.ts"))
    .filter((name) => {
      const bare = name.replace(".test.ts", "");
      return patterns.some((p) => p.test(bare)) && !TOO_LONG.includes(bare);
    });
}

/** Tries the mutants of the wanted files, part by part. */
async function tryFolder(folder: string, files: readonly string[]): Promise<readonly MutantResult[]> {
  mkdirSync(join(root, ".tmp/mutants"), { recursive: true });
  const parts = SUBJECTS[folder] ?? [];
  const named = new Set(parts.flatMap((part) => part.files ?? []));
  const results: MutantResult[] = [];
  for (const [at, part] of parts.entries()) {
    const own = files.filter((file) => (part.files ? part.files.includes(file) : !named.has(file)));
    if (own.length === 0) continue;
    writeFileSync(join(root, ".tmp/mutants/tests.json"), JSON.stringify(testsOf(part)));
    const stryker = new Stryker({
      configFile: "tests/mutants/stryker.json",
      mutate: own.map((file) => `lib/domain/${folder}/${file}.ts`),
      concurrency: workers,
      incremental: changed,
      incrementalFile: `.tmp/mutants/${folder}-${at}.json`,
    });
    results.push(...(await stryker.runMutationTest()));
  }
  return results;
}

function share(part: number, whole: number): string {
  return whole === 0 ? "none" : `${((100 * part) / whole).toFixed(1)} %`;
}

const rows: string[][] = [["folder", "mutants", "killed", "score", "equivalent", "open", "words", "minutes"]];
let stale = 0;
for (const [folder, files] of wanted) {
  const from = performance.now();
  const result = judged(await tryFolder(folder, files), root);
  const minutes = ((performance.now() - from) / 60_000).toFixed(1);
  const of = (fate: Tried["fate"]) => result.tried.filter((t) => t.fate === fate);
  const [killed, equivalent, open, words] = [of("killed"), of("equivalent"), of("open"), of("words")];
  console.log(`\n${folder}`);
  for (const t of open)
    console.log(
      `  lives  ${t.file}:${t.at}  ${t.mutator}  ${t.from}  ->  ${t.to || "(nothing)"}${t.why === "NoCoverage" ? "  (no test comes here)" : ""}`,
    );
  for (const t of equivalent)
    console.log(`  same   ${t.file}:${t.at}  ${t.from}  ->  ${t.to || "(nothing)"}: ${t.why}`);
  for (const e of result.stale)
    console.log(
      `  STALE  ${e.file}: no living mutant turns ${e.from} into ${e.to || "(nothing)"}; take it off the list`,
    );
  stale += result.stale.length;
  for (const [file, own] of Map.groupBy(result.tried, (t) => t.file)) {
    const counted = own.filter((t) => t.fate !== "words");
    const dead = counted.filter((t) => t.fate === "killed").length;
    console.log(`  ${file}: ${dead} of ${counted.length} killed, ${share(dead, counted.length)}`);
  }
  const whole = killed.length + open.length;
  rows.push([
    folder,
    `${whole + equivalent.length}`,
    `${killed.length}`,
    share(killed.length, whole + equivalent.length),
    `${equivalent.length}`,
    `${open.length}`,
    `${words.length}`,
    minutes,
  ]);
}
console.log(`\n${rows.map((row) => row.map((cell) => cell.padStart(11)).join("")).join("\n")}`);
if (stale > 0) process.exitCode = 1;
