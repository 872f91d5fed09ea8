import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

// Read by StrykerJS in its copy of the repository, .tmp/mutants/copies/<name>; run.ts wrote beside the copies which tests know
// the folder whose mutants are tried.
const root = fileURLToPath(new URL("../..", import.meta.url));
const tests = JSON.parse(readFileSync(join(root, "../../tests.json"), "utf8")) as string[];

export default defineConfig({
  root,
  resolve: { alias: { "@": root.replace(/\/$/, "") } },
  test: {
    include: tests.map((name) => `tests/domain/${name}`),
    env: { LOG_LEVEL: "fatal" },
    testTimeout: 30_000,
    // One worker runs all test files of a mutant; StrykerJS starts a fresh one for the next.
    isolate: false,
  },
});
