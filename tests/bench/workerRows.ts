import { monitorEventLoopDelay } from "node:perf_hooks";
import { setTimeout } from "node:timers/promises";
import { invoicePdf } from "@/lib/documents/invoice";
import { labelsPdf } from "@/lib/documents/label";
import { LABELS_A_FILE } from "@/lib/domain/stock/labelFiles";
import { DynoSchema, LambdaSchema } from "@/lib/schemas/benchLogs";
import { closeWorkers, inWorker, startWorkers } from "@/lib/workers/pool";
import { gathered } from "@/lib/workers/slices";
import { readSheet } from "@/lib/workers/tasks/imports";
import { readDynoLog, readRiddenLog } from "@/lib/workers/tasks/logs";
import { invoiceSample } from "../documents/samples";
import { longestWithin, median, p95, type Row } from "./floor";

const SHOP = { slug: "bench" };
const SAMPLES = 8;
/** Without a worker it takes long and varies little. */
const SAMPLES_WITHOUT = 2;
const EVERY_MS = 5;

/** The longest time for which this process served nobody else during `run`, sorted, in so many runs. */
async function longestBlocks(run: () => Promise<unknown>, samples: number): Promise<number[]> {
  const blocks: number[] = [];
  for (let n = 0; n < samples; n++) {
    const watched = monitorEventLoopDelay({ resolution: EVERY_MS });
    watched.enable();
    await setTimeout(4 * EVERY_MS);
    await run();
    await setTimeout(4 * EVERY_MS);
    watched.disable();
    blocks.push(Math.max(0, watched.max / 1e6 - EVERY_MS));
  }
  return blocks.sort((a, b) => a - b);
}

const lines = (count: number, line: (n: number) => string) =>
  Array.from({ length: count }, (_, n) => line(n)).join("\n");

/** What runs in worker threads: how long the event loop is held by it, against the same work in the loop's own thread. */
export async function workerRows(): Promise<Row[]> {
  startWorkers();
  const labels = {
    labels: Array.from({ length: LABELS_A_FILE }, (_, n) => ({
      code: `HX-${1000 + n}`,
      name: `Main jet ${n}`,
      bin: `A-${n % 30}`,
    })),
    paper: "sheet" as const,
    shop: { name: "Bench shop", locale: "en-AU", country: "AU" },
    day: "2026-11-25",
  };
  const sheet = {
    noun: "parts" as const,
    text: `code,name,cost\n${lines(20_000, (n) => `P-${n},Part number ${n},1.25`)}`,
    map: { code: 0, name: 1, costE4: 2 },
    terms: { currency: "AUD", mark: "." as const, distance: "km" as const },
  };
  const log = LambdaSchema.parse({
    csv: `time,throttle,lambda\n${lines(49_000, (n) => `${n / 20},${(n * 7) % 100},${0.85 + (n % 30) / 100}`)}`,
  });
  const dyno = DynoSchema.parse({
    csv: `rpm,torque,run\n${lines(49_000, (n) => `${2000 + (n % 24_500) / 4},${20 + (n % 100) / 10},${n < 24_500 ? "before" : "after"}`)}`,
  });
  const invoice = invoiceSample("AU", 40);
  const rows: Row[] = [];
  for (const [name, there, here] of [
    [`${LABELS_A_FILE} labels as PDF`, () => inWorker(SHOP, "labelsPdf", labels), () => labelsPdf(labels)],
    [
      "20,000 rows of an import read",
      async () => gathered((await inWorker(SHOP, "readSheet", sheet)).rows),
      async () => gathered(readSheet(sheet).rows),
    ],
    ["an invoice of 40 lines as PDF", () => inWorker(SHOP, "invoicePdf", invoice), () => invoicePdf(invoice)],
    [
      "a dyno file of 49,000 rows read",
      () => inWorker(SHOP, "readDynoLog", dyno),
      async () => readDynoLog(dyno),
    ],
    [
      "a lambda log of 49,000 rows read",
      () => inWorker(SHOP, "readRiddenLog", log),
      async () => readRiddenLog(log),
    ],
  ] as const) {
    const blocks = await longestBlocks(there, SAMPLES);
    const without = await longestBlocks(here, SAMPLES_WITHOUT);
    rows.push({
      work: `longest block: ${name}`,
      medianMs: median(blocks),
      p95Ms: p95(blocks),
      cpuMs: null,
      floor: "without a worker",
      floorMs: median(without),
      samples: SAMPLES,
      goal: longestWithin(50),
    });
  }
  await closeWorkers();
  return rows;
}
