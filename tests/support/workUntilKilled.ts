// A process that works through the data layer until it is killed: node workUntilKilled.ts <database>.
// It says each thing it was told is done, one JSON line each, only after the write answered.
import { recordPayment } from "@/lib/data/payments/record";
import { closeShops } from "@/lib/db/shop";
import { handleFor, SYSTEM } from "@/lib/gate/handle";
import { invoiceNow, issuedInvoice, readyJob } from "./invoices";
import { readyToQuote } from "./quotes";

const [database] = process.argv.slice(2) as [string];
const shop = handleFor({ slug: database, database, server: "" }, SYSTEM, new Date("2026-11-25T00:30:00Z"));
const ready = await readyToQuote(shop, 100);
process.stdout.write(`${JSON.stringify({ ready: true })}\n`);
for (let turn = 0; turn < 200; turn++) {
  const { jobId } = await readyJob(shop, ready);
  process.stdout.write(`${JSON.stringify({ jobId })}\n`);
  const invoiceId = await issuedInvoice(shop, jobId);
  process.stdout.write(`${JSON.stringify({ invoiceId })}\n`);
  const { grossMinor } = await invoiceNow(shop, invoiceId);
  await recordPayment(shop, {
    invoiceId,
    method: "card",
    amountMinor: grossMinor,
    paidOn: "2026-11-25",
    reference: "",
  });
  process.stdout.write(`${JSON.stringify({ paid: invoiceId })}\n`);
}
await closeShops();
