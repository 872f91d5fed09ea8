import { closePool } from "@/lib/db/clients";
import { closeDirectory } from "@/lib/db/directory";
import { closeShops } from "@/lib/db/shop";
import { say } from "@/lib/log/say";
import { goRound } from "./rounds";

/** One round, for a schedule of the machine's own: npx tsx lib/server/roundOnce.ts. Set PUBLIC_URL as for the server. */
const { shops, failed, expired, reminded } = await goRound(new Date());
say(`${shops} shops looked at: ${expired} quotes ran out, ${reminded} reminders in the outbox.`);
await closeShops();
await closeDirectory();
await closePool();
process.exitCode = failed > 0 ? 1 : 0;
