// A process of its own that writes the reminders that are due until it is killed: node remindUntilKilled.ts <database> <now>.
import { reminderRound } from "@/lib/data/chasing/round";
import { handleFor, SYSTEM } from "@/lib/gate/handle";

const [database, now] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(now));
await shop.read.counter.findMany({ select: { name: true }, orderBy: { name: "asc" } });
process.stdout.write(`${JSON.stringify({ begun: true })}\n`);
await reminderRound(shop, "https://workshop.example");
// It is killed on its way, or has come to the end and waits for that.
setInterval(() => {}, 1000);
