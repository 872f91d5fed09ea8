import { type ChildProcess, spawn } from "node:child_process";
import { rmSync } from "node:fs";
import { join } from "node:path";
import { ensureChromium } from "./chromium";
import { E2E } from "./e2eServer";

const bin = (name: string) => join(process.cwd(), "node_modules/.bin", name);

function started(server: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    server.stdout?.on("data", (chunk: Buffer) => {
      process.stdout.write(chunk);
      if (chunk.toString().includes("Stop with Ctrl+C")) resolve();
    });
    server.once("exit", (code) => reject(new Error(`The server ended with ${code} before it was up.`)));
  });
}

function finished(child: ChildProcess): Promise<number> {
  return new Promise((resolve) => child.once("exit", (code) => resolve(code ?? 1)));
}

await ensureChromium();
rmSync(E2E.data, { recursive: true, force: true });
const server = spawn(bin("tsx"), ["lib/server/start.ts"], {
  env: {
    ...process.env,
    PORT: String(E2E.port),
    DATA_DIR: E2E.data,
    DEMO_PASSWORD: E2E.password,
    PUBLIC_TRIES: "500",
  },
  stdio: ["ignore", "pipe", "inherit"],
});
const ended = finished(server);
let code = 1;
try {
  await started(server);
  code = await finished(
    spawn(bin("playwright"), ["test", "--config", "tests/playwright.config.ts", ...process.argv.slice(2)], {
      stdio: "inherit",
    }),
  );
} finally {
  server.kill("SIGTERM");
  await ended;
}
process.exit(code);
