import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { sessionCookie } from "../../support/session";
import { type CpuOfThreads, cpuOfThreads } from "../memoryOf";
import { layCopies } from "../shops/copies";
import { type Built, dataIn, PASSWORD, startBuilt } from "./built";
import { generator, type Served, steady } from "./generator";

/**
 * One process against two: npm run bench:processes -- [--seconds 20] [--parallel 16]. The same pages of eight equal shops are asked for
 * one after the other, so many at once, from a process of their own; `--flags "--no-parallel-scavenge"` gives Node flags. Figures, no test: to be read on a machine with nothing else to do.
 */
const args = process.argv.slice(2);
const option = (name: string, usual: number, most: number) => {
  const at = args.indexOf(`--${name}`);
  const given = at < 0 ? usual : Number(args[at + 1]);
  return Number.isFinite(given) && given > 0 ? Math.min(given, most) : usual;
};
const seconds = option("seconds", 20, 300);
const parallel = option("parallel", 16, 64);
const given = args.indexOf("--flags");
const flags = given < 0 ? [] : (args[given + 1] ?? "").split(" ").filter(Boolean);
const port = Number(process.env.LOAD_PORT ?? 3493);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-load-"));
const data = dataIn(folder);
const PAGES = ["", "/jobs", "/quotes", "/quotes/1", "/stock", "/customers", "/jobs/1/card"];
const cores = availableParallelism();

interface Row extends Served {
  readonly name: string;
  /** Seconds of processor that the server took, by kind of thread, and those that asking took. */
  readonly cpu: CpuOfThreads;
  readonly asking: number;
  /** The same of each process that serves, all threads together. */
  readonly each: readonly number[];
}

/** `held` holds the server to these cores; what asks takes the others by itself. */
async function measured(name: string, processes: number, shops: string[], held?: string): Promise<Row> {
  const under = held ? ["taskset", "-c", held] : [];
  const server = await startBuilt(port, data, processes, {}, under, flags);
  try {
    const cookie = await sessionCookie(server.base, "saltpanOwner", PASSWORD);
    const paths = PAGES.flatMap((page) => shops.map((shop) => `/s/${shop}${page}`));
    const asked = { base: server.base, cookie, paths, parallel, seconds };
    // As long again before it counts: V8 compiles what is asked for often, in each process by itself.
    await steady(asked, folder);
    const before = snapshot(server);
    const { cpuSeconds, ...served } = await steady(asked, folder);
    const after = snapshot(server);
    return { ...served, name, asking: cpuSeconds, ...between(before, after) };
  } finally {
    await server.stop();
  }
}

const snapshot = (server: Built) => ({
  all: cpuOfThreads(server.pids()),
  each: server.serving().map((pid) => total(cpuOfThreads([pid]))),
});

const total = (cpu: CpuOfThreads) => Object.values(cpu).reduce((sum, one) => sum + one, 0);

function between(before: ReturnType<typeof snapshot>, after: ReturnType<typeof snapshot>) {
  const cpu = Object.fromEntries(
    Object.entries(after.all).map(([kind, now]) => [kind, now - (before.all[kind] ?? 0)]),
  );
  return { cpu, each: after.each.map((now, n) => now - (before.each[n] ?? 0)) };
}

const rate = (row: Row) => row.asked / seconds;
/** Requests for a second of the server's processor. */
const yielded = (row: Row) => row.asked / total(row.cpu);
const used = (of: number) => (of / seconds).toFixed(2);

function told(row: Row): string {
  const kinds = Object.entries(row.cpu)
    .filter(([, spent]) => spent / seconds >= 0.005)
    .sort(([, x], [, y]) => y - x)
    .map(([kind, spent]) => `${kind} ${used(spent)}`);
  return [
    `${row.name}: ${rate(row).toFixed(1)} requests/s, p50 ${row.p50.toFixed(0)} ms, p95 ${row.p95.toFixed(0)} ms, errors ${row.errors}`,
    `  cores used: server ${used(total(row.cpu))} (${kinds.join(", ")}), asking ${used(row.asking)}, of ${cores}`,
    `  ${(1000 / yielded(row)).toFixed(1)} ms of processor a request, ${yielded(row).toFixed(1)} requests for a second of it; each process ${row.each.map(used).join(", ")}`,
  ].join("\n");
}

try {
  await (await startBuilt(port, data, 1)).stop();
  const shops = layCopies(data, 8);
  const held = cores >= 2 ? await measured("one process held to one core", 1, shops, "0") : null;
  const one = await measured("one process", 1, shops);
  const two = await measured("two processes", 2, shops);
  // Two cores' worth of what two processes yield, were nothing else on these cores.
  const alone = 2 * yielded(two);
  const text = [
    ...[held, one, two].flatMap((row) => (row ? [told(row)] : [])),
    `two processes against one: ${(rate(two) / rate(one)).toFixed(2)} times as many requests`,
    ...(held ? [`against one held to one core: ${(rate(two) / rate(held)).toFixed(2)} times`] : []),
    `one process by itself uses ${used(total(one.cpu))} cores, so that two cores hold ${(2 / (total(one.cpu) / seconds)).toFixed(2)} times it at most; were asking for nothing, two would serve ${alone.toFixed(1)} requests/s: ${(alone / rate(one)).toFixed(2)} times one`,
    `a request takes ${(100 * (yielded(one) / yielded(two) - 1)).toFixed(0)} % more processor with two`,
    `${parallel} at once for ${seconds} s over 8 shops by ${generator}; ${cores} cores, Node ${[process.version, ...flags].join(" ")}`,
  ].join("\n");
  console.log(text);
  mkdirSync(".bench", { recursive: true });
  writeFileSync(".bench/processes.txt", `${text}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
