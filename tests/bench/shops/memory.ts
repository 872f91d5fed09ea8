import { mkdirSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import { reconfigure } from "@/lib/configuration/configuration";
import { median } from "../floor";

/**
 * What an open shop costs: npm run bench:shops; of schemas: tsx tests/support/postgresRun.ts -- tsx tests/bench/shops/memory.ts.
 * Figures, no test: it fails for nothing.
 */
const FIRST = 5;
const MEASURED = Number(process.env.BENCH_SHOPS ?? 40);

const folder = mkdtempSync(join(tmpdir(), "throttlewright-shops-"));
reconfigure({ DATA_DIR: join(folder, "data"), SHOPS_OPEN: "10000" });
mkdirSync(join(folder, "data"), { recursive: true });
setFlagsFromString("--expose-gc");
const collect = runInNewContext("gc") as () => void;

async function settled(): Promise<{ heap: number; external: number; rss: number }> {
  for (let turn = 0; turn < 3; turn++) {
    collect();
    await new Promise((resume) => setTimeout(resume, 20));
  }
  const { heapUsed, external, rss } = process.memoryUsage();
  return { heap: heapUsed, external, rss };
}

const mib = (bytes: number) => (bytes / 2 ** 20).toFixed(2);
const cpuMs = () => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const { layShops, firstAnswer, visit } = await import("./laid");
const { closeShops } = await import("@/lib/db/shop");
const { closePool } = await import("@/lib/db/pools");
try {
  await layShops(FIRST + MEASURED);
  for (let n = 0; n < FIRST; n++) {
    await firstAnswer(n);
    await visit(n);
  }
  const before = await settled();
  const passed: number[] = [];
  const worked: number[] = [];
  for (let n = FIRST; n < FIRST + MEASURED; n++) {
    const [at, busy] = [performance.now(), cpuMs()];
    await firstAnswer(n);
    passed.push(performance.now() - at);
    worked.push(cpuMs() - busy);
    await visit(n);
  }
  const after = await settled();
  for (const times of [passed, worked]) times.sort((a, b) => a - b);
  const each = (key: "heap" | "external" | "rss") => mib((after[key] - before[key]) / MEASURED);
  console.log(
    [
      `open shop, reader and writer, after today's view, 50 quotes, 50 jobs and a write (mean of ${MEASURED}):`,
      `  heap ${each("heap")} MiB, external ${each("external")} MiB, resident ${each("rss")} MiB   goal: heap and external <= 1.5 MiB`,
      `cold shop to its first answer (median, worst of ${MEASURED}):`,
      `  ${median(passed).toFixed(1)} ms, ${passed.at(-1)?.toFixed(1)} ms; processor ${median(worked).toFixed(1)} ms, ${worked.at(-1)?.toFixed(1)} ms   goal: <= 40 ms`,
      `whole process with ${FIRST + MEASURED} open: heap ${mib(after.heap)}, external ${mib(after.external)}, resident ${mib(after.rss)} MiB`,
    ].join("\n"),
  );
} finally {
  await closeShops();
  await closePool();
  rmSync(folder, { recursive: true, force: true });
}
