import { spawn } from "node:child_process";
import { ensureChromium } from "./chromium";
import { E2E } from "./e2eServer";
import { bin, startOwnServer } from "./ownServer";

await ensureChromium();
const server = await startOwnServer(E2E.port, E2E.data, E2E.password);
const tests = spawn(
  bin("playwright"),
  ["test", "--config", "tests/playwright.config.ts", ...process.argv.slice(2)],
  {
    stdio: "inherit",
  },
);
const code = await new Promise<number>((resolve) => tests.once("exit", (status) => resolve(status ?? 1)));
await server.stop();
process.exit(code);
