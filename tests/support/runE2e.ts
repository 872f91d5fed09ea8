import { spawn } from "node:child_process";
import { readdirSync } from "node:fs";
import { ensureChromium } from "./chromium";
import { E2E } from "./e2eServer";
import { bin, startOwnServer } from "./ownServer";

/** These change nothing that the others look at, so they may run beside them. */
const ASIDE = [
  "account",
  "bokmal",
  "bringing",
  "calendar",
  "firstDay",
  "isolation",
  "keptTyped",
  "labels",
  "library",
  "limits",
  "packages",
  "pages",
  "stockScan",
  "taxPeriods",
];

/** What the demo shops' pages weigh, before anything is added to them. */
const FIRST = ["weights"];

/** This pays all that is owed, which the others look at: it comes when they are through. */
const LAST = ["bankList"];

function run(name: string, ...args: string[]): Promise<number> {
  const tests = spawn(bin("playwright"), ["test", "--config", "tests/playwright.config.ts", ...args], {
    stdio: "inherit",
    // A run empties its output folder as it begins: one of its own each.
    env: { ...process.env, E2E_OUTPUT: name },
  });
  return new Promise((resolve) => tests.once("exit", (status) => resolve(status ?? 1)));
}

await ensureChromium();
const server = await startOwnServer(E2E.port, E2E.data, E2E.password);
const asked = process.argv.slice(2);
const all = readdirSync("tests/e2e").filter((file) => file.endsWith(".spec.ts"));
const among = (names: readonly string[]) => (file: string) => names.includes(file.replace(/\.spec\.ts$/, ""));
const [aside, first, last] = [among(ASIDE), among(FIRST), among(LAST)];
const codes =
  asked.length > 0
    ? [await run("asked", ...asked)]
    : [
        await run("first", ...all.filter(first)),
        ...(await Promise.all([
          run("aside", ...all.filter(aside)),
          run("working", ...all.filter((file) => !aside(file) && !first(file) && !last(file))),
        ])),
        await run("last", ...all.filter(last)),
      ];
await server.stop();
process.exit(Math.max(...codes));
