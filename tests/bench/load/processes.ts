import { fork } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { dataIn, startBuilt } from "./built";
import type { Served } from "./steady";

/**
 * One process against two: npm run bench:processes -- [--seconds 20] [--parallel 8]. The people of two shops ask for pages one
 * after the other, so many at once, from a process of their own. Figures, no test: to be read on a machine with nothing else to do.
 */
const args = process.argv.slice(2);
const option = (name: string, usual: number, most: number) => {
  const at = args.indexOf(`--${name}`);
  const given = at < 0 ? usual : Number(args[at + 1]);
  return Number.isFinite(given) && given > 0 ? Math.min(given, most) : usual;
};
const seconds = option("seconds", 20, 300);
const parallel = option("parallel", 8, 64);
const port = Number(process.env.LOAD_PORT ?? 3493);
const folder = mkdtempSync(join(tmpdir(), "throttlewright-load-"));

interface Row extends Served {
  readonly processes: number;
  readonly cpuMs: number;
}

async function measured(processes: number): Promise<Row> {
  const server = await startBuilt(port, dataIn(folder), processes);
  try {
    const load = fork(join(import.meta.dirname, "steady.ts"), [
      server.base,
      String(parallel),
      String(seconds),
    ]);
    const told = () =>
      new Promise<unknown>((resolve, reject) => {
        load.once("message", resolve);
        load.once("exit", () => reject(new Error("The load ended before it told anything.")));
      });
    await told();
    const before = server.cpuSeconds();
    const served = (await told()) as Served;
    const cpuMs = ((server.cpuSeconds() - before) * 1000) / served.asked;
    return { ...served, processes, cpuMs };
  } finally {
    await server.stop();
  }
}

try {
  const [one, two] = [await measured(1), await measured(2)];
  const rate = ({ asked }: Row) => asked / seconds;
  const row = (of: Row) =>
    `${of.processes} process${of.processes > 1 ? "es" : "  "}  ${rate(of).toFixed(1)} requests/s  p50 ${of.p50.toFixed(0)} ms  p95 ${of.p95.toFixed(0)} ms  ${of.cpuMs.toFixed(1)} ms of processor a request  errors ${of.errors}`;
  const text = [
    row(one),
    row(two),
    `two against one: ${(rate(two) / rate(one)).toFixed(2)} times as many`,
    `${parallel} at once for ${seconds} s over two shops; ${availableParallelism()} cores, Node ${process.version}`,
  ].join("\n");
  console.log(text);
  mkdirSync(".bench", { recursive: true });
  writeFileSync(".bench/processes.txt", `${text}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
}
