// The first part of `npm test`: types, lint and unused code, which keep one processor busy, beside the data tests that matter most on
// PostgreSQL. Where no server can be had they are skipped, in so many words.
import { spawn } from "node:child_process";
import { bin } from "./ownServer";

const postgres = spawn(bin("tsx"), ["tests/support/postgresRun.ts", "--short"], {
  stdio: ["ignore", "pipe", "pipe"],
});
const said: Buffer[] = [];
for (const stream of [postgres.stdout, postgres.stderr])
  stream.on("data", (chunk: Buffer) => said.push(chunk));
const tested = new Promise<number>((done) => postgres.once("close", (code) => done(code ?? 1)));
const check = spawn("npm", ["run", "check"], { stdio: "inherit" });
const checked = await new Promise<number>((done) => check.once("close", (code) => done(code ?? 1)));
// It stops its server before it ends.
if (checked !== 0) postgres.kill("SIGTERM");
const code = await tested;
process.stdout.write(Buffer.concat(said));
process.exitCode = checked || code;
