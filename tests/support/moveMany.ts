// A process of its own that moves one piece of a part between bins many times:
// node moveMany.ts <database> <partId> <from> <to> <times>. It says "ready", waits for a line, and answers one line of JSON.
import { once } from "node:events";
import { moveBetweenBins } from "@/lib/data/stock/betweenBins";
import { closeShops } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, partId, from, to, times] = process.argv.slice(2) as [string, string, string, string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date("2026-11-25T00:30:00Z"));
await shop.read.part.findUniqueOrThrow({ where: { id: Number(partId) }, select: { id: true } });

process.stdout.write("ready\n");
await once(process.stdin, "data");

let moved = 0;
let refused = 0;
const errors: string[] = [];
const began = Date.now();
for (let turn = 0; turn < Number(times); turn++)
  try {
    await moveBetweenBins(shop, { partId: Number(partId), from, to, quantityMilli: 1000 });
    moved++;
  } catch (cause) {
    if (cause instanceof Refusal && /lies in bin/.test(cause.message)) refused++;
    else errors.push(String(cause));
  }
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ moved, refused, errors, began, ended })}\n`);
process.exit(0);
