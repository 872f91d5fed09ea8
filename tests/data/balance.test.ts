import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { getInvoice } from "@/lib/data/invoices/get";
import { balanceOf, payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordPayment, recordRefund } from "@/lib/data/payments/record";
import { openDeposits, openInvoices, recordForSeveral } from "@/lib/data/payments/several";
import type { ShopHandle } from "@/lib/db/shop";
import { issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const day = "2026-11-25";
const transfer = { method: "transfer" as const, paidOn: day };
const standing = async (shop: ShopHandle, id: number) => {
  const view = await getInvoice(shop, id);
  return [view?.standing, view?.leftMinor];
};

/** Two issued invoices of one customer. */
async function pair(shop: ShopHandle) {
  const first = await readyJob(shop);
  const second = await readyJob(shop, first.ready);
  const one = { ...first, id: await issuedInvoice(shop, first.jobId) };
  const two = { ...second, id: await issuedInvoice(shop, second.jobId) };
  return { one, two, customerId: first.ready.customerId };
}

describe("money paid over what an invoice comes to", () => {
  it("is refused unless it is kept; kept, it is the customer's balance and the job is closed", async () => {
    for (const shop of [a, b]) {
      const { one, two, customerId } = await pair(shop);
      const over = { invoiceId: one.id, amountMinor: one.grossMinor + 700, ...transfer };
      await expect(recordPayment(shop, over)).rejects.toThrow(/more than is due/);
      const coins = { ...over, method: "cash" as const, keepRest: true };
      await expect(recordPayment(shop, coins)).rejects.toThrow(/more than is due/);
      await recordPayment(shop, { ...over, keepRest: true });
      expect([await standing(shop, one.id), await stateOf(shop, one.jobId)]).toEqual([
        ["toPayBack", -700],
        "closed",
      ]);
      expect(await balanceOf(shop, customerId)).toBe(700);
      expect(await problemsOf(shop)).toEqual([]);

      await payFromBalance(shop, { invoiceId: two.id });
      expect([await standing(shop, one.id), await standing(shop, two.id)]).toEqual([
        ["paid", 0],
        ["partPaid", two.grossMinor - 700],
      ]);
      const moved = await shop.read.payment.findMany({
        where: { method: "balance" },
        orderBy: { id: "asc" },
      });
      expect(moved.map((row) => [row.kind, row.invoiceId, row.amountMinor])).toEqual([
        ["refund", one.id, 700],
        ["payment", two.id, 700],
      ]);
      expect(await balanceOf(shop, customerId)).toBe(0);
      await expect(payFromBalance(shop, { invoiceId: two.id })).rejects.toThrow(/no balance/);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("pays no more than is due, and the rest goes back", async () => {
    for (const shop of [a, b]) {
      const { one, two, customerId } = await pair(shop);
      const amountMinor = one.grossMinor + two.grossMinor + 300;
      await recordPayment(shop, { invoiceId: one.id, amountMinor, keepRest: true, ...transfer });
      await payFromBalance(shop, { invoiceId: two.id });
      expect([await standing(shop, two.id), await stateOf(shop, two.jobId)]).toEqual([["paid", 0], "closed"]);
      expect(await balanceOf(shop, customerId)).toBe(300);
      await recordRefund(shop, {
        jobId: one.jobId,
        amountMinor: 300,
        reference: "Asked for it",
        ...transfer,
      });
      expect([await balanceOf(shop, customerId), await standing(shop, one.id)]).toEqual([0, ["paid", 0]]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("bounces with the payment that it came with, unless it was used since", async () => {
    const { one, two, customerId } = await pair(a);
    const over = { invoiceId: one.id, amountMinor: one.grossMinor + 700, keepRest: true, ...transfer };
    await recordPayment(a, over);
    const payment = await a.read.payment.findFirstOrThrow({ where: { kind: "payment" } });
    await recordBounced(a, { paymentId: payment.id, paidOn: day, reference: "No cover" });
    expect([await balanceOf(a, customerId), await standing(a, one.id)]).toEqual([
      0,
      ["open", one.grossMinor],
    ]);
    const later = as(a, { now: new Date(a.now.getTime() + 1000) });
    await recordPayment(later, over);
    await payFromBalance(later, { invoiceId: two.id });
    const again = await a.read.payment.findFirstOrThrow({
      where: { kind: "payment", method: "transfer" },
      orderBy: { id: "desc" },
    });
    await expect(
      recordBounced(later, { paymentId: again.id, paidOn: day, reference: "No cover" }),
    ).rejects.toThrow(/was given back/);
    expect(await problemsOf(a)).toEqual([]);
  });
});

describe("one payment for several invoices", () => {
  it("pays the oldest first, the last in part, and each invoice's job on its own", async () => {
    for (const shop of [a, b]) {
      const { one, two, customerId } = await pair(shop);
      expect((await openInvoices(shop, customerId)).map((row) => row.id)).toEqual([one.id, two.id]);
      const several = { customerId, invoices: [two.id, one.id], ...transfer };
      const all = one.grossMinor + two.grossMinor;
      await expect(recordForSeveral(shop, { ...several, amountMinor: all + 1 })).rejects.toThrow(
        /more than is due/,
      );
      await expect(recordForSeveral(shop, { ...several, amountMinor: one.grossMinor })).rejects.toThrow(
        /is left for invoice 2002/,
      );
      expect(await shop.read.payment.count()).toBe(0);
      await recordForSeveral(shop, { ...several, amountMinor: all - 100, reference: "A17" });
      expect([await standing(shop, one.id), await standing(shop, two.id)]).toEqual([
        ["paid", 0],
        ["partPaid", 100],
      ]);
      expect((await openInvoices(shop, customerId)).map((row) => [row.id, row.leftMinor])).toEqual([
        [two.id, 100],
      ]);
      const rows = await shop.read.payment.findMany({ orderBy: { id: "asc" } });
      expect(rows.map((row) => [row.jobId, row.reference])).toEqual([
        [one.jobId, "A17"],
        [two.jobId, "A17"],
      ]);
      await recordBounced(shop, { paymentId: rows[0]?.id ?? 0, paidOn: day, reference: "No cover" });
      expect([await standing(shop, one.id), await standing(shop, two.id)]).toEqual([
        ["open", one.grossMinor],
        ["open", two.grossMinor],
      ]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("pays a job's deposit after the invoices, at most what was asked", async () => {
    for (const shop of [a, b]) {
      const { one, customerId } = await pair(shop);
      const third = await readyJob(shop, one.ready);
      expect(await openDeposits(shop.read, customerId)).toEqual([]);
      const { revisionId } = await shop.read.job.findUniqueOrThrow({ where: { id: third.jobId } });
      await shop.write((tx) =>
        tx.quoteRevision.update({ where: { id: revisionId }, data: { depositMinor: 900 } }),
      );
      expect(await openDeposits(shop.read, customerId)).toMatchObject([{ id: third.jobId, leftMinor: 900 }]);
      const paid = { customerId, invoices: [one.id], deposits: [third.jobId], ...transfer };
      const most = one.grossMinor + 900;
      await expect(
        recordForSeveral(shop, { ...paid, amountMinor: most + 1, keepRest: true }),
      ).rejects.toThrow(/more than is due/);
      await recordForSeveral(shop, { ...paid, amountMinor: most });
      const rows = await shop.read.payment.findMany({ orderBy: { id: "asc" } });
      expect(rows.map((row) => [row.kind, row.jobId, row.amountMinor])).toEqual([
        ["payment", one.jobId, one.grossMinor],
        ["deposit", third.jobId, 900],
      ]);
      expect(await openDeposits(shop.read, customerId)).toEqual([]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("keeps what is over all of them as the balance", async () => {
    const { one, two, customerId } = await pair(a);
    const amountMinor = one.grossMinor + two.grossMinor + 55;
    await recordForSeveral(a, {
      customerId,
      invoices: [one.id, two.id],
      amountMinor,
      keepRest: true,
      ...transfer,
    });
    expect([await balanceOf(a, customerId), await openInvoices(a, customerId)]).toEqual([55, []]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("is of one customer of the shop", async () => {
    const { one } = await pair(a);
    const other = { customerId: one.ready.customerId + 1, invoices: [one.id], amountMinor: 100, ...transfer };
    await expect(recordForSeveral(a, other)).rejects.toThrow(/no open invoice or deposit/);
    await expect(recordForSeveral(b, { ...other, customerId: one.ready.customerId })).rejects.toThrow(
      /no open invoice/,
    );
  });
});
