import { type ChildProcess, fork } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import type { Measured } from "./server";

/**
 * Honest work beside an attack: npm run bench:load -- [--seconds 60] [--rate 10] [attack ...], all attacks where none is
 * named. Server, honest people and attacker are three processes. Figures, no test: it fails for nothing.
 */
const PORT = Number(process.env.LOAD_PORT ?? 3493);
const BASE = `http://localhost:${PORT}`;
const PASSWORD = "bench-slide-float-3141";

const args = process.argv.slice(2);
const option = (name: string, usual: number, most: number) => {
  const at = args.indexOf(`--${name}`);
  const given = at < 0 ? usual : Number(args.splice(at, 2)[1]);
  return Number.isFinite(given) && given > 0 ? Math.min(given, most) : usual;
};
const seconds = option("seconds", 60, 600);
const rate = option("rate", 10, 50);

function ask(server: ChildProcess, what: "anew" | "how"): Promise<Measured> {
  return new Promise((resolve) => {
    server.once("message", (told) => resolve(told as Measured));
    server.send(what);
  });
}

const folder = mkdtempSync(join(tmpdir(), "throttlewright-load-"));
const here = (file: string) => join(import.meta.dirname, file);
const server = fork(here("server.ts"), {
  // One process, which tells how its event loop was.
  env: {
    ...process.env,
    PORT: String(PORT),
    DATA_DIR: join(folder, "data"),
    DEMO_PASSWORD: PASSWORD,
    WEB_PROCESSES: "1",
  },
  stdio: ["ignore", "ignore", "inherit", "ipc"],
});
const ended = new Promise((resolve) => server.once("exit", resolve));

try {
  await new Promise<void>((resolve, reject) => {
    server.once("message", () => resolve());
    server.once("exit", () => reject(new Error("The server did not come up.")));
  });
  // Loaded only now: they read the build.
  const { ATTACKS } = await import("./attacks");
  const { honestWork } = await import("./honest");
  const { signIn } = await import("./site");
  const names = args.length > 0 ? args : Object.keys(ATTACKS);
  const unknown = names.find((name) => !ATTACKS[name]);
  if (unknown)
    throw new Error(`There is no attack "${unknown}"; there are: ${Object.keys(ATTACKS).join(", ")}.`);
  const site = await signIn(BASE, "saltpanOwner", PASSWORD);
  await honestWork(site, rate, Math.min(seconds, 15));
  const head = [
    "attack",
    "asked",
    "p50 ms",
    "p95",
    "p99",
    "most",
    "errors",
    "longest block ms",
    "p99.9",
    "RSS MB",
    "attack's answers",
  ];
  const rows: string[][] = [];
  for (const name of names) {
    const before = await ask(server, "anew");
    const attacker = fork(here("attacker.ts"), [name, BASE, PASSWORD, String(seconds)]);
    const answers = new Promise<unknown>((resolve) => {
      attacker.once("message", resolve);
      attacker.once("exit", () => resolve("none"));
    });
    const { times, errors } = await honestWork(site, rate, seconds);
    const after = await ask(server, "how");
    const told = await answers;
    const at = (share: number) => (times[Math.floor(times.length * share)] ?? Number.NaN).toFixed(0);
    rows.push([
      name,
      String(times.length),
      at(0.5),
      at(0.95),
      at(0.99),
      (times.at(-1) ?? Number.NaN).toFixed(0),
      Object.keys(errors).length === 0 ? "none" : JSON.stringify(errors),
      String(after.delay?.longestMs ?? "-"),
      String(after.delay?.p999Ms ?? "-"),
      `${before.rssMb} to ${after.rssMb}`,
      JSON.stringify(told),
    ]);
    console.log(`${name}: ${ATTACKS[name]?.says}`);
    console.log(
      `  ${head
        .slice(1)
        .map((title, i) => `${title} ${rows.at(-1)?.[i + 1]}`)
        .join(", ")}`,
    );
  }
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => (row[i] ?? "").length)));
  const text = `${[head, ...rows].map((row) => row.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join("  ")).join("\n")}\n\n${rate} requests a second for ${seconds} s; ${availableParallelism()} cores, Node ${process.version}\n`;
  console.log(`\n${text}`);
  mkdirSync(".bench", { recursive: true });
  writeFileSync(".bench/load.txt", text);
} finally {
  if (server.exitCode === null) server.kill("SIGTERM");
  await ended;
  rmSync(folder, { recursive: true, force: true });
}
