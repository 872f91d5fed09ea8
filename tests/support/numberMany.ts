// A process of its own that takes many numbers of a series, half of them on either side of a new year:
// node numberMany.ts <database> <series> <times>. It says "ready", waits for a line, and answers one line of JSON.
import { once } from "node:events";
import { nextWritten } from "@/lib/db/record";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, series, times] = process.argv.slice(2) as [string, string, string];
const days = ["2026-12-31T12:00:00Z", "2027-01-01T12:00:00Z"].map((now) =>
  handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(now)),
);
await days[0]?.read.counter.findMany({ select: { name: true }, orderBy: { name: "asc" } });

process.stdout.write("ready\n");
await once(process.stdin, "data");

const written: string[] = [];
const began = Date.now();
for (const shop of days)
  for (let turn = 0; turn < Number(times) / 2; turn++)
    written.push((await shop.write((tx) => nextWritten(tx, shop, series, 1))).written);
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ written, began, ended })}\n`);
process.exit(0);
