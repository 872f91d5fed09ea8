// A process of its own that writes the reminders that are due: node remindMany.ts <database> <now>. It says "ready", waits for a line,
// and answers one line of JSON: how many it wrote.
import { once } from "node:events";
import { reminderRound } from "@/lib/data/chasing/round";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, now] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(now));
await shop.read.counter.findMany({ select: { name: true }, orderBy: { name: "asc" } });

process.stdout.write("ready\n");
await once(process.stdin, "data");

const began = Date.now();
const written = await reminderRound(shop, "https://workshop.example");
const ended = Date.now();
await closeShops();
process.stdout.write(`${JSON.stringify({ written, began, ended })}\n`);
process.exit(0);
