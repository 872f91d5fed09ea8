import { once } from "@/lib/db/once";
import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { depositLeftOf } from "@/lib/domain/invoices/held";
import { outstanding } from "@/lib/domain/invoices/state";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { jobIdsOn } from "../invoices/jobsOn";
import { INVOICE_ROW, type InvoiceRow, invoiceIn } from "../invoices/rows";
import { countPaidIn } from "../invoices/settle";
import { payableIn, writePaidIn } from "./record";
import { addPaid, writeMoneyIn } from "./rows";

/** So many of a customer's invoices are looked at for a balance, the newest first. Judgement. */
const MOST = 500;

/** The invoices that a customer has paid more on than they come to, oldest first. */
async function overpaidOf(db: Pick<ShopTx, "invoice">, customerId: number) {
  const rows = await db.invoice.findMany({
    where: { customerId, kind: "invoice", state: "issued", takenBack: false, saleId: null },
    select: INVOICE_ROW,
    orderBy: { id: "desc" },
    take: MOST,
  });
  return rows
    .map((row) => ({ row, overMinor: 0 - outstanding({ ...row, credited: false }) }))
    .filter((one) => one.overMinor > 0)
    .reverse();
}

/** What a customer has paid over what the invoices come to, in minor units: it comes off another invoice, or goes back. */
export async function balanceOf(shop: ShopHandle, customerId: number): Promise<number> {
  return (await overpaidOf(shop.read, customerId)).reduce((sum, one) => sum + one.overMinor, 0);
}

/**
 * Takes the customer's balance off an issued invoice, as much of it as is due: money of method "balance" goes back from the invoices
 * that it was paid on, and pays this one. Answers the first row's id of the payment.
 */
export async function payFromBalance(
  shop: ShopHandle,
  input: { readonly invoiceId: number; readonly key?: string | undefined },
): Promise<number> {
  return shop.write((tx) =>
    once(tx, shop, "paid from the balance", input, async () => {
      const row = await payableIn(tx, input.invoiceId);
      const due = outstanding({ ...row, credited: false });
      const over = row.customerId === null ? [] : await overpaidOf(tx, row.customerId);
      const amountMinor = Math.min(
        due,
        over.reduce((sum, one) => sum + one.overMinor, 0),
      );
      if (amountMinor <= 0)
        throw new Refusal(
          due <= 0 ? "Nothing is due." : "The customer has no balance.",
          "Look at the invoice again.",
          {},
          "conflict",
        );
      const { zone } = await tx.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
      const paidOn = dayIn(zone, shop.now);
      const from: string[] = [];
      let left = amountMinor;
      for (const one of over) {
        const minor = Math.min(left, one.overMinor);
        if (minor === 0) continue;
        left -= minor;
        await takeOutIn(tx, shop, one.row, { minor, paidOn, reference: `to invoice ${row.written}` });
        from.push(one.row.written);
      }
      const part = { method: "balance", amountMinor, roundingMinor: 0, settlesMinor: amountMinor };
      const id = await writePaidIn(tx, shop, row, [part], {
        paidOn,
        reference: `from invoice ${from.join(", ")}`.slice(0, 120),
      });
      await addPaid(tx, row, amountMinor);
      await countPaidIn(tx, shop, row.id);
      return id;
    }),
  );
}

/** Takes money out of the jobs of an invoice that was paid too much on. */
async function takeOutIn(
  tx: ShopTx,
  shop: ShopHandle,
  row: InvoiceRow,
  { minor, paidOn, reference }: { minor: number; paidOn: string; reference: string },
): Promise<void> {
  let left = minor;
  for (const jobId of await jobIdsOn(tx, row)) {
    const payments = await tx.payment.findMany({
      where: { jobId },
      select: { kind: true, amountMinor: true, roundingMinor: true },
      orderBy: { id: "asc" },
      take: 500,
    });
    const amountMinor = Math.min(left, Math.max(0, depositLeftOf(payments)));
    if (amountMinor === 0) continue;
    left -= amountMinor;
    await writeMoneyIn(tx, shop, {
      kind: "refund",
      jobId,
      invoiceId: row.id,
      method: "balance",
      amountMinor,
      roundingMinor: 0,
      paidOn,
      reference,
    });
  }
  if (left > 0) throw new Error(`Invoice ${row.id} holds less than its balance.`);
  await addPaid(tx, await invoiceIn(tx, row.id), 0 - minor);
  await countPaidIn(tx, shop, row.id);
}
