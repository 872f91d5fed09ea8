// A process of its own that makes one round through a shop's quotes: oneRound.ts <database> <now>.
// It says "ready", waits for a line, and answers one line of JSON.
import { once } from "node:events";
import { quoteRound } from "@/lib/data/quotes/rounds";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, now] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(now));
await shop.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });

process.stdout.write("ready\n");
await once(process.stdin, "data");
const round = await quoteRound(shop, "https://workshop.example");
await closeShops();
process.stdout.write(`${JSON.stringify(round)}\n`);
process.exit(0);
