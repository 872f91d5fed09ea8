import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordWriteOff } from "@/lib/data/payments/writeOff";
import { invoiceSale } from "@/lib/data/sales/fullInvoice";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import type { ShopHandle } from "@/lib/db/shop";
import { invoiceNow, issuedInvoice, readyJob } from "./invoices";
import { line, partToSell, saleOf } from "./sales";
import { as } from "./shops";

/** A fixed sequence (Numerical Recipes' constants), so that a failure repeats. */
function* chance(seed: number): Generator<number> {
  for (let state = seed; ; ) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    yield state / 2 ** 32;
  }
}

/** A year of a shop, by its own acts on random days: jobs with deposits, payments, credits, a bounce and a write-off, and sales. */
export async function yearOf(shop: ShopHandle, seed: number): Promise<void> {
  const random = chance(seed);
  const next = (to: number) => Math.floor((random.next().value as number) * to);
  const acts: { at: number; run: (shop: ShopHandle, paidOn: string) => Promise<unknown> }[] = [];
  const on = (at: number, run: (typeof acts)[number]["run"]) => acts.push({ at, run });
  const transfer = { method: "transfer" as const };
  const { ready } = await readyJob(shop);
  for (let job = 0; job < 4; job++) {
    const { jobId, grossMinor } = await readyJob(shop, ready);
    const begin = next(60);
    let invoiceId = 0;
    let paymentId = 0;
    const deposit = 1_000 + next(3_000);
    const reference = `deposit ${job}`;
    if (job !== 1)
      on(begin, (now, paidOn) =>
        recordDeposit(now, { jobId, amountMinor: deposit, ...transfer, paidOn, reference }),
      );
    on(begin + 1 + next(60), async (now) => {
      invoiceId = await issuedInvoice(now, jobId);
    });
    const amountMinor = 500 + next(Math.floor(grossMinor / 4));
    on(begin + 70 + next(60), async (now, paidOn) => {
      const money = { amountMinor, ...transfer, paidOn, reference: `payment ${job}` };
      paymentId = await recordPayment(now, { invoiceId, ...money });
    });
    const later = begin + 140 + next(60);
    const much = 300 + next(900);
    if (job === 0)
      on(later, (now, paidOn) => recordBounced(now, { paymentId, paidOn, reference: "returned" }));
    if (job === 1)
      on(later, async (now) => {
        const { version } = await invoiceNow(shop, invoiceId);
        const ask = { wholeMinor: much };
        return creditPart(now, {
          id: invoiceId,
          version,
          reason: "Too dear",
          ask,
          fates: {},
          corrected: false,
        });
      });
    if (job === 2)
      on(later, (now) => recordWriteOff(now, { invoiceId, amountMinor: much, reference: "Will not pay" }));
    if (job !== 3) continue;
    on(later, (now) => creditInvoice(now, { id: invoiceId, reason: "Wrong customer" }));
    on(later + 1 + next(60), (now, paidOn) =>
      recordRefund(now, { jobId, amountMinor: 400, ...transfer, paidOn, reference: "Too much" }),
    );
  }
  const parts = [
    await partToSell(shop, { opening: "500" }),
    await partToSell(shop, { opening: "500", taxMark: "E" }),
  ];
  for (let sale = 0; sale < 12; sale++) {
    const lines = parts
      .slice(0, 1 + next(2))
      .map((partId) => line(partId, 1 + next(3), 10_000 + next(900) * 100));
    const at = next(250);
    const method = next(2) === 0 ? "cash" : "card";
    let id = 0;
    on(at, async (now) => {
      id = await sell(now, saleOf(lines, { method }));
    });
    const after = at + 1 + next(50);
    if (sale % 5 === 1)
      on(after, (now) => takeBack(now, { saleId: id, reason: "Wrong size", method: "cash", back: [] }));
    if (sale % 5 === 3) on(after, (now) => invoiceSale(now, { saleId: id, customerId: ready.customerId }));
  }
  for (const { at, run } of acts.sort((one, two) => one.at - two.at)) {
    const now = new Date(Date.UTC(2027, 0, 2 + at, 2));
    await run(as(shop, { now }), now.toISOString().slice(0, 10));
  }
}
