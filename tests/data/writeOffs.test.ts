import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { exportedInvoices } from "@/lib/data/invoices/export";
import { getInvoice } from "@/lib/data/invoices/get";
import { issueInvoice } from "@/lib/data/invoices/issue";
import { listInvoices, listUnpaid } from "@/lib/data/invoices/list";
import { shownInvoice } from "@/lib/data/invoices/shown";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordWriteOff, takeWriteOffBack } from "@/lib/data/payments/writeOff";
import type { ShopHandle } from "@/lib/db/shop";
import { InvoiceQuery } from "@/lib/schemas/invoices";
import { invoiceNow, issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const day = "2026-11-25";
const card = { method: "card" as const, paidOn: day };
const transfer = { method: "transfer" as const, paidOn: day };
const standing = async (shop: ShopHandle, id: number) => {
  const view = await getInvoice(shop, id);
  return [view?.standing, view?.leftMinor];
};
const lastPayment = async (shop: ShopHandle) =>
  shop.read.payment.findFirstOrThrow({ orderBy: { id: "desc" } });

describe("a rest that will not be paid", () => {
  it("is written off with a reason: nothing is due, the job closes, and no money is held for it", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const id = await issuedInvoice(shop, jobId);
      await recordPayment(shop, { invoiceId: id, amountMinor: grossMinor - 250, ...card });
      const reference = "Moved away, no address";
      await expect(recordWriteOff(shop, { invoiceId: id, amountMinor: 251, reference })).rejects.toThrow(
        /cannot be written off/,
      );
      await recordWriteOff(shop, { invoiceId: id, amountMinor: 250, reference });
      expect(await standing(shop, id)).toEqual(["writtenOff", 0]);
      const { rows } = await listInvoices(shop, InvoiceQuery.parse({}));
      expect(rows.map((row) => row.standing)).toEqual(["writtenOff"]);
      expect(await stateOf(shop, jobId)).toBe("closed");
      expect(await getInvoice(shop, id)).toMatchObject({
        writtenOffMinor: 250,
        depositLeftMinor: grossMinor - 250,
      });
      expect(await shownInvoice(shop, id)).toMatchObject({ leftMinor: 0, writtenOff: true });
      expect((await listUnpaid(shop)).outstandingMinor).toBe(0);
      const exported = [];
      for await (const one of exportedInvoices(shop, {})) exported.push([one.paidMinor, one.writtenOffMinor]);
      expect(exported).toEqual([[grossMinor - 250, 250]]);
      await expect(creditInvoice(shop, { id, reason: "Too late" })).rejects.toThrow(/is written off/);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is due again once the write-off is taken back, and can then be paid and credited", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const id = await issuedInvoice(shop, jobId);
      await recordWriteOff(shop, { invoiceId: id, amountMinor: grossMinor, reference: "Bankrupt" });
      await expect(recordPayment(shop, { invoiceId: id, amountMinor: 1, ...card })).rejects.toThrow(
        /Nothing is due/,
      );
      await takeWriteOffBack(shop, { invoiceId: id, reference: "Paid after all" });
      expect([await standing(shop, id), await stateOf(shop, jobId)]).toEqual([
        ["open", grossMinor],
        "invoiced",
      ]);
      await expect(takeWriteOffBack(shop, { invoiceId: id, reference: "Again" })).rejects.toThrow(
        /Nothing of this invoice/,
      );
      await recordPayment(shop, { invoiceId: id, amountMinor: 500, ...card });
      await creditInvoice(shop, { id, reason: "Goodwill" });
      const again = await draftInvoice(shop, { jobId, basis: "fixed" });
      await issueInvoice(shop, { id: again, version: (await invoiceNow(shop, again)).version });
      expect(await standing(shop, again)).toEqual(["partPaid", grossMinor - 500]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is only of a standing invoice of the shop", async () => {
    const { jobId } = await readyJob(a);
    const draft = await draftInvoice(a, { jobId, basis: "fixed" });
    const off = { amountMinor: 1, reference: "Why not" };
    await expect(recordWriteOff(a, { invoiceId: draft, ...off })).rejects.toThrow(
      /Only an invoice that stands/,
    );
    await expect(recordWriteOff(b, { invoiceId: draft, ...off })).rejects.toMatchObject({ kind: "missing" });
  });
});

it("a bounce takes back one customer's payment, not another's that was recorded in the same millisecond", async () => {
  for (const shop of [a, b]) {
    const one = await readyJob(shop);
    const jobs = [one, await readyJob(shop, one.ready)];
    await shop.write(async (tx) => {
      const other = {
        name: "Ines Calder",
        address: "2 Ridge Road",
        searchKey: "ines calder",
        createdAt: shop.now,
      };
      const { id } = await tx.customer.create({ data: other });
      await tx.job.update({ where: { id: jobs[1]?.jobId ?? 0 }, data: { customerId: id } });
    });
    const payments: number[] = [];
    for (const { jobId, grossMinor } of jobs) {
      const invoiceId = await issuedInvoice(shop, jobId);
      await recordPayment(shop, { invoiceId, amountMinor: grossMinor, ...transfer });
      payments.push((await lastPayment(shop)).id);
    }
    const [first = 0, second = 0] = payments;
    await recordBounced(shop, { paymentId: first, ...transfer, reference: "No cover" });
    const reversed = await shop.read.payment.findMany({ where: { kind: "bounced" } });
    expect(reversed.map((row) => row.reversesId)).toEqual([first]);
    await recordBounced(shop, { paymentId: second, ...transfer, reference: "No cover" });
    expect(await problemsOf(shop)).toEqual([]);
  }
});

describe("a payment that bounced", () => {
  const bounced = (shop: ShopHandle, paymentId: number) =>
    recordBounced(shop, { paymentId, paidOn: day, reference: "No cover" });

  it("is taken back by a row of its own, once: the invoice is due again and its job open", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const id = await issuedInvoice(shop, jobId);
      await recordPayment(shop, { invoiceId: id, amountMinor: grossMinor, ...transfer });
      expect(await stateOf(shop, jobId)).toBe("closed");
      const payment = await lastPayment(shop);
      await bounced(shop, payment.id);
      expect([await standing(shop, id), await stateOf(shop, jobId)]).toEqual([
        ["open", grossMinor],
        "invoiced",
      ]);
      expect(await lastPayment(shop)).toMatchObject({
        kind: "bounced",
        reversesId: payment.id,
        amountMinor: grossMinor,
      });
      expect(await shop.read.payment.count()).toBe(2);
      await expect(bounced(shop, payment.id)).rejects.toThrow(/bounced already/);
      await recordPayment(shop, { invoiceId: id, amountMinor: grossMinor, ...card });
      expect(await stateOf(shop, jobId)).toBe("closed");
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("of several jobs' invoice bounces whole", async () => {
    for (const shop of [a, b]) {
      const one = await readyJob(shop);
      const two = await readyJob(shop, one.ready);
      const id = await draftInvoice(shop, { jobId: one.jobId, basis: "fixed", also: [two.jobId] });
      await issueInvoice(shop, { id, version: (await invoiceNow(shop, id)).version });
      const whole = (await getInvoice(shop, id))?.leftMinor ?? 0;
      await recordPayment(shop, { invoiceId: id, amountMinor: whole, ...transfer });
      expect(await shop.read.payment.count()).toBe(2);
      await bounced(shop, (await lastPayment(shop)).id);
      expect(await standing(shop, id)).toEqual(["open", whole]);
      expect((await getInvoice(shop, id))?.payments.map((row) => [row.kind, row.amountMinor])).toEqual([
        ["payment", whole],
        ["bounced", whole],
      ]);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("as a deposit is not printed once it bounced before the invoice, and is due on one that took it off", async () => {
    for (const shop of [a, b]) {
      const before = await readyJob(shop);
      await recordDeposit(shop, { jobId: before.jobId, amountMinor: 700, ...transfer });
      await bounced(shop, (await lastPayment(shop)).id);
      const first = await issuedInvoice(shop, before.jobId);
      expect((await getInvoice(shop, first))?.doc).toMatchObject({ deposits: [], prepaidMinor: 0 });
      const after = await readyJob(shop, before.ready);
      await recordDeposit(shop, { jobId: after.jobId, amountMinor: 700, ...transfer });
      const deposit = await lastPayment(shop);
      const second = await issuedInvoice(shop, after.jobId);
      expect(await standing(shop, second)).toEqual(["partPaid", after.grossMinor - 700]);
      await bounced(shop, deposit.id);
      expect((await standing(shop, second))[1]).toBe(after.grossMinor);
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is no cash, no refund, and not what was given back since", async () => {
    const { jobId } = await readyJob(a);
    await recordDeposit(a, { jobId, amountMinor: 500, method: "cash", paidOn: day });
    await expect(bounced(a, (await lastPayment(a)).id)).rejects.toThrow(/by card or bank transfer/);
    await recordDeposit(a, { jobId, amountMinor: 700, ...card });
    const deposit = await lastPayment(a);
    await recordRefund(a, { jobId, amountMinor: 1000, reference: "Asked for it", ...card });
    await expect(bounced(a, (await lastPayment(a)).id)).rejects.toThrow(/Only a deposit or a payment/);
    await expect(bounced(a, deposit.id)).rejects.toThrow(/was given back/);
    await expect(bounced(b, deposit.id)).rejects.toMatchObject({ kind: "missing" });
  });
});
