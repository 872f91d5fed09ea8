// Two app processes on one PostgreSQL server, behind a proxy that sends them a request each in turn; walks go through it.
// `npm run test:pair` walks the whole job; `npm run test:pair -- tests/e2e/x.spec.ts` walks that.
import { spawn } from "node:child_process";
import { randomBytes } from "node:crypto";
import { request as ask, createServer, type Server } from "node:http";
import { ensureChromium } from "./chromium";
import { E2E } from "./e2eServer";
import { bin, startOwnServer, startServer } from "./ownServer";

const PORTS = [E2E.port + 1, E2E.port + 2] as const;
const given = process.argv.slice(2);
const walks = given.length ? given : ["tests/e2e/mainJob.spec.ts"];

/** Passes each request on to the next process, body and answer as they come. */
function inTurn(ports: readonly number[]): Server {
  let count = 0;
  return createServer((request, response) => {
    const port = ports[count++ % ports.length];
    const forwarded = { ...request.headers, "x-forwarded-for": request.socket.remoteAddress ?? "" };
    const { method, url: path } = request;
    const onward = ask({ host: "127.0.0.1", port, method, path, headers: forwarded }, (answer) => {
      response.writeHead(answer.statusCode ?? 502, answer.headers);
      answer.pipe(response);
    });
    onward.once("error", () => response.destroy());
    response.once("close", () => onward.destroy());
    request.pipe(onward);
  });
}

if (!process.env.DATABASE_URL)
  throw new Error("Start it by `npm run test:pair`, which gives it a PostgreSQL server.");
await ensureChromium();
const settings = {
  PUBLIC_URL: E2E.url,
  TRUST_PROXY: "on",
  NEXTAUTH_SECRET: randomBytes(48).toString("base64url"),
};
const first = await startOwnServer(PORTS[0], E2E.data, E2E.password, settings);
// Beside the first, on its build and its folder, where the photos lie.
const second = await startServer(PORTS[1], E2E.data, E2E.password, settings);
const proxy = inTurn(PORTS).listen(E2E.port, "127.0.0.1");
const tests = spawn(bin("playwright"), ["test", "--config", "tests/playwright.config.ts", ...walks], {
  stdio: "inherit",
  env: { ...process.env, E2E_OUTPUT: "pair" },
});
process.exitCode = await new Promise<number>((resolve) => tests.once("exit", (code) => resolve(code ?? 1)));
proxy.closeAllConnections();
proxy.close();
await second.stop();
await first.stop();
