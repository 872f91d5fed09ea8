// A process of its own that sends a shop's letters as at another moment: sendLetters.ts <database> <now>.
import { outboxOf } from "@/lib/data/mail/outbox";
import { printEnclosed } from "@/lib/documents/enclosed";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailOutbox";

const [database, now] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database }, SYSTEM, new Date(now));
await sendDue(outboxOf(shop), mailer(), printEnclosed);
process.exit(0);
