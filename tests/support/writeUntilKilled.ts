// A process that writes into a shop until it is killed: writeUntilKilled.ts <database>. It says each write, one JSON line
// each, only after it was acknowledged.
import { directory } from "@/lib/db/directory";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database] = process.argv.slice(2) as [string];
await directory().read.shop.count();
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date("2026-11-25T00:30:00Z"));
for (let turn = 1; turn < 100_000; turn++) {
  await shop.write((tx) => tx.bay.create({ data: { name: `Bay ${turn} of many` } }));
  process.stdout.write(`${JSON.stringify({ turn })}\n`);
}
