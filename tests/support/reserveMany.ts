// A process of its own that reserves one part many times: node reserveMany.ts <database> <partId> <jobId> <times>.
// It says "ready", waits for a line, and answers one line of JSON.
import { once } from "node:events";
import { reserveIn } from "@/lib/data/stock/reservations";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, partId, jobId, times] = process.argv.slice(2) as [string, string, string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date("2026-11-25T00:30:00Z"));
await shop.read.part.findUniqueOrThrow({ where: { id: Number(partId) }, select: { id: true } });

process.stdout.write("ready\n");
await once(process.stdin, "data");

let held = 0;
let short = 0;
const errors: string[] = [];
/** What this job and the jobs it was told of hold together, at each answer that left it short: distinct sums. */
const told = new Set<number>();
const began = Date.now();
for (let turn = 0; turn < Number(times); turn++) {
  try {
    const answer = await shop.write((tx) =>
      reserveIn(tx, shop, { jobId: Number(jobId), partId: Number(partId), wantedMilli: 1000 }),
    );
    held += answer.reservedMilli;
    short += answer.shortMilli;
    if (answer.shortMilli > 0)
      told.add(answer.reservedBy.reduce((sum, other) => sum + other.reservedMilli, held));
  } catch (cause) {
    errors.push(String(cause));
  }
}
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ held, short, errors, told: [...told], began, ended })}\n`);
process.exit(0);
