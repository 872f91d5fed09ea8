import fc from "fast-check";
import { beforeEach, describe, expect, it } from "vitest";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { listFollowUps } from "@/lib/data/followUps/list";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { getInvoice, previewInvoice } from "@/lib/data/invoices/get";
import { moneyProblems } from "@/lib/data/invoices/invariants";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import type { ShopHandle } from "@/lib/db/shop";
import { takeMoney } from "@/lib/domain/invoices/settle";
import { invoiceNow, issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a, { cashRoundingMinor: 5 });
  await nameShop(b, { pricesIncludeTax: false, cashRoundingMinor: 100 });
});

const today = "2026-11-25";
const card = { method: "card" as const, paidOn: today };
const cash = { method: "cash" as const, paidOn: today };

describe("a payment", () => {
  it("in full closes the job and puts one follow-up in the diary, by day and by distance", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const invoiceId = await issuedInvoice(shop, jobId);
      await recordPayment(shop, { invoiceId, amountMinor: 1000, ...card });
      expect((await getInvoice(shop, invoiceId))?.standing).toBe("partPaid");
      expect(await stateOf(shop, jobId)).toBe("invoiced");
      await recordPayment(shop, { invoiceId, amountMinor: grossMinor - 1000, ...card });
      expect((await getInvoice(shop, invoiceId))?.standing).toBe("paid");
      expect(await stateOf(shop, jobId)).toBe("closed");
      const { rows } = await listFollowUps(shop, { state: "due", after: undefined });
      expect(rows.map((row) => [row.jobId, row.dueOn, row.dueKm])).toEqual([[jobId, "2027-05-24", 44_200]]);
      expect(await moneyProblems(shop)).toEqual([]);
    }
  });

  it("sent twice with the same key is taken once, also at the same moment", async () => {
    const { jobId } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    const pay = () => recordPayment(a, { invoiceId, amountMinor: 2500, ...card, key: "pay-the-same" });
    const ids = await Promise.all([pay(), pay(), pay()]);
    expect(new Set(ids).size).toBe(1);
    expect(await a.read.payment.count()).toBe(1);
    expect((await invoiceNow(a, invoiceId)).paidMinor).toBe(2500);
    expect(await b.read.payment.count()).toBe(0);
  });

  it("above what is due is refused and names what is due; twenty at once never overpay", async () => {
    const { jobId, grossMinor } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    await expect(recordPayment(a, { invoiceId, amountMinor: grossMinor + 1, ...card })).rejects.toMatchObject(
      {
        remedy: `Take at most ${(grossMinor / 100).toFixed(2)} AUD.`,
        fields: { amount: expect.stringContaining("Take at most") },
      },
    );
    const share = Math.ceil(grossMinor / 10);
    const tried = await Promise.allSettled(
      Array.from({ length: 20 }, () => recordPayment(a, { invoiceId, amountMinor: share, ...card })),
    );
    const taken = tried.filter((one) => one.status === "fulfilled").length;
    expect(taken).toBe(Math.floor(grossMinor / share));
    expect((await invoiceNow(a, invoiceId)).paidMinor).toBe(taken * share);
    expect(await moneyProblems(a)).toEqual([]);
  });

  it("in cash settles to the coin and keeps the rounding apart", async () => {
    const { jobId, grossMinor } = await readyJob(b);
    const invoiceId = await issuedInvoice(b, jobId);
    const coins = Math.round(grossMinor / 100) * 100;
    expect(coins).not.toBe(grossMinor);
    await expect(recordPayment(b, { invoiceId, amountMinor: coins - 50, ...cash })).rejects.toThrow(
      /cannot be paid in coins/,
    );
    await recordPayment(b, { invoiceId, amountMinor: coins, ...cash });
    const row = await b.read.payment.findFirstOrThrow();
    expect([row.amountMinor, row.roundingMinor]).toEqual([coins, coins - grossMinor]);
    expect((await invoiceNow(b, invoiceId)).paidMinor).toBe(grossMinor);
    expect(await stateOf(b, jobId)).toBe("closed");
    expect(await moneyProblems(b)).toEqual([]);
  });

  it("of a draft, of a credited invoice and of a day to come is refused", async () => {
    const { jobId } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    await expect(
      recordPayment(a, { invoiceId, amountMinor: 100, method: "card", paidOn: "2026-11-27" }),
    ).rejects.toThrow(/not come yet/);
    await creditInvoice(a, { id: invoiceId, reason: "Made in error" });
    await expect(recordPayment(a, { invoiceId, amountMinor: 100, ...card })).rejects.toThrow(
      /credited with 301/,
    );
  });

  it("only grows: the database refuses to change or remove one", async () => {
    const { jobId } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    const id = await recordPayment(a, { invoiceId, amountMinor: 100, ...card });
    await expect(
      a.write((tx) => tx.payment.update({ where: { id }, data: { amountMinor: 5 } })),
    ).rejects.toThrow(/constraint|only grows/i);
    await expect(a.write((tx) => tx.payment.delete({ where: { id } }))).rejects.toThrow(
      /constraint|only grows/i,
    );
    expect((await a.read.payment.findUniqueOrThrow({ where: { id } })).amountMinor).toBe(100);
  });
});

describe("a deposit", () => {
  it("comes off the invoice and is printed on it; after that, money is a payment", async () => {
    const { jobId, grossMinor } = await readyJob(a);
    await recordDeposit(a, { jobId, amountMinor: 5000, ...card, key: "deposit-one" });
    await recordDeposit(a, { jobId, amountMinor: 5000, ...card, key: "deposit-one" });
    expect((await previewInvoice(a, jobId))?.depositLeftMinor).toBe(5000);
    const invoiceId = await issuedInvoice(a, jobId);
    const row = await invoiceNow(a, invoiceId);
    const doc = storedInvoice(row.frozen);
    expect([row.prepaidMinor, doc.dueMinor]).toEqual([5000, grossMinor - 5000]);
    expect(doc.deposits).toEqual([{ paidOn: today, method: "card", amountMinor: 5000 }]);
    await expect(recordDeposit(a, { jobId, amountMinor: 100, ...card })).rejects.toThrow(
      /is invoiced with 2001/,
    );
    await expect(recordPayment(a, { invoiceId, amountMinor: grossMinor - 4999, ...card })).rejects.toThrow(
      /more than is due/,
    );
    await recordPayment(a, { invoiceId, amountMinor: grossMinor - 5000, ...card });
    expect(await stateOf(a, jobId)).toBe("closed");
    expect(await moneyProblems(a)).toEqual([]);
  });

  it("of the whole price closes the job as the invoice is issued; more than the price is not taken", async () => {
    const { jobId, grossMinor } = await readyJob(b);
    await expect(recordDeposit(b, { jobId, amountMinor: grossMinor + 1, ...card })).rejects.toThrow(
      /more than is due/,
    );
    await recordDeposit(b, { jobId, amountMinor: grossMinor, ...card });
    const id = await issuedInvoice(b, jobId);
    expect((await getInvoice(b, id))?.standing).toBe("paid");
    expect(await stateOf(b, jobId)).toBe("closed");
  });
});

describe("money back", () => {
  it("goes back after a credit note, at most what is held, and the next invoice takes off what stayed", async () => {
    const { jobId, grossMinor } = await readyJob(a);
    await recordDeposit(a, { jobId, amountMinor: 3000, ...card });
    const first = await issuedInvoice(a, jobId);
    await recordPayment(a, { invoiceId: first, amountMinor: grossMinor - 3000, ...card });
    await creditInvoice(a, { id: first, reason: "A line too many" });
    await expect(
      recordRefund(a, { jobId, amountMinor: grossMinor + 1, ...card, reference: "Too much" }),
    ).rejects.toThrow(/more than is held/);
    await recordRefund(a, {
      jobId,
      amountMinor: 1000,
      ...card,
      reference: "Line taken off",
      key: "refund-one",
    });
    await recordRefund(a, {
      jobId,
      amountMinor: 1000,
      ...card,
      reference: "Line taken off",
      key: "refund-one",
    });
    const second = await issuedInvoice(a, jobId);
    expect((await invoiceNow(a, second)).prepaidMinor).toBe(grossMinor - 1000);
    expect((await getInvoice(a, second))?.leftMinor).toBe(1000);
    expect(await moneyProblems(a)).toEqual([]);
  });

  it("of a paid invoice makes it due again and opens the job; paying again closes it with the one follow-up", async () => {
    const { jobId, grossMinor } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    await recordPayment(a, { invoiceId, amountMinor: grossMinor, ...card });
    await recordRefund(a, {
      jobId,
      amountMinor: grossMinor,
      ...card,
      reference: "Card payment was reversed",
    });
    expect([await stateOf(a, jobId), (await getInvoice(a, invoiceId))?.leftMinor]).toEqual([
      "invoiced",
      grossMinor,
    ]);
    await recordPayment(a, { invoiceId, amountMinor: grossMinor, method: "transfer", paidOn: today });
    expect(await stateOf(a, jobId)).toBe("closed");
    expect(await a.read.followUp.count()).toBe(1);
    expect(await moneyProblems(a)).toEqual([]);
    await expect(
      recordRefund(b, { jobId: 4711, amountMinor: 1, ...card, reference: "Not here" }),
    ).rejects.toMatchObject({ kind: "missing" });
  });
});

const AU = { currency: "AUD", locale: "en-AU" };

describe("taking money", () => {
  it("in 5-cent coins: 9.82 is settled by 9.80 and 9.83 by 9.85 (the two examples of the money paper)", () => {
    expect(takeMoney(982, 980, "cash", 5, AU)).toEqual({
      amountMinor: 980,
      roundingMinor: -2,
      settlesMinor: 982,
    });
    expect(takeMoney(983, 985, "cash", 5, AU)).toEqual({
      amountMinor: 985,
      roundingMinor: 2,
      settlesMinor: 983,
    });
    expect(takeMoney(983, 983, "card", 5, AU)).toEqual({
      amountMinor: 983,
      roundingMinor: 0,
      settlesMinor: 983,
    });
  });

  it("never settles more than is due, and what it settles is the amount less the rounding", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1_000_000 }),
        fc.integer({ min: 0, max: 1_100_000 }),
        fc.constantFrom(1, 5, 10, 100),
        (due, amount, step) => {
          let taken: ReturnType<typeof takeMoney>;
          try {
            taken = takeMoney(due, amount, "cash", step, AU);
          } catch {
            // Refused: it must have been too much, nothing, or not in coins.
            const most = Math.round(due / step) * step;
            expect(amount > most || amount === 0 || amount % step !== 0).toBe(true);
            return;
          }
          expect(taken.settlesMinor).toBeLessThanOrEqual(due);
          expect(taken.amountMinor - taken.roundingMinor).toBe(taken.settlesMinor);
          expect(Math.abs(taken.roundingMinor) * 2).toBeLessThanOrEqual(step);
        },
      ),
    );
  });
});
