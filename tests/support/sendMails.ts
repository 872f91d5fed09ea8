// A process of its own that sends a shop's mails as at another moment: sendMails.ts <database> <now>.
import { mailQueueOf } from "@/lib/data/mail/queue";
import { printEnclosed } from "@/lib/documents/enclosed";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { mailer } from "@/lib/outside/mail";
import { sendDue } from "@/lib/outside/mailQueue";

const [database, now] = process.argv.slice(2) as [string, string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date(now));
await sendDue(mailQueueOf(shop), mailer(), printEnclosed);
process.exit(0);
