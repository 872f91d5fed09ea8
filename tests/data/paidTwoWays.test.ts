import fc from "fast-check";
import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { getInvoice, previewInvoice } from "@/lib/data/invoices/get";
import { recordDeposit, recordPayment } from "@/lib/data/payments/record";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import type { ShopHandle } from "@/lib/db/shop";
import { handedOver } from "@/lib/domain/invoices/handOver";
import { takeParts } from "@/lib/domain/invoices/settle";
import { SellSchema } from "@/lib/schemas/sales";
import { issuedInvoice, nameShop, readyJob, stateOf } from "../support/invoices";
import { line, partToSell, saleNow, saleOf, sold } from "../support/sales";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a, { cashRoundingMinor: 5 });
  await nameShop(b, { pricesIncludeTax: false, cashRoundingMinor: 100 });
});

const paidOn = "2026-11-25";
const book = { currency: "AUD", locale: "en-AU" };
const coinOf = (shop: ShopHandle) => (shop === a ? 5 : 100);

describe("money by two methods in one act", () => {
  it("settles an invoice: so much by card, the rest in whole coins, the rounding kept apart", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      const invoiceId = await issuedInvoice(shop, jobId);
      const byCard = 4_002;
      const rest = grossMinor - byCard;
      const coins = Math.round(rest / coinOf(shop)) * coinOf(shop);
      expect(coins).not.toBe(rest);
      // Cash is named first and still settles what the card leaves.
      await recordPayment(shop, {
        invoiceId,
        method: "cash",
        amountMinor: coins,
        also: { method: "card", amountMinor: byCard },
        paidOn,
        key: "both-at-once",
      });
      const payments = await shop.read.payment.findMany({ orderBy: { id: "asc" } });
      expect(payments.map((one) => [one.method, one.amountMinor, one.roundingMinor])).toEqual([
        ["cash", coins, coins - rest],
        ["card", byCard, 0],
      ]);
      expect(await getInvoice(shop, invoiceId)).toMatchObject({ leftMinor: 0, standing: "paid" });
      expect(await stateOf(shop, jobId)).toBe("closed");
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("is all taken or none of it: a second amount that is too much leaves no first payment", async () => {
    const { jobId, grossMinor } = await readyJob(a);
    const invoiceId = await issuedInvoice(a, jobId);
    const pay = (cash: number, card: number) =>
      recordPayment(a, {
        invoiceId,
        method: "cash",
        amountMinor: cash,
        also: { method: "card", amountMinor: card },
        paidOn,
      });
    await expect(pay(5_000, grossMinor)).rejects.toMatchObject({ fields: { amount: expect.any(String) } });
    await expect(pay(5_000, grossMinor + 1)).rejects.toMatchObject({
      fields: { alsoAmount: expect.stringContaining("Take at most") },
    });
    await expect(pay(5_001, 1_000)).rejects.toThrow("50.01 AUD cannot be paid in coins");
    await expect(
      recordPayment(a, {
        invoiceId,
        method: "card",
        amountMinor: 100,
        also: { method: "card", amountMinor: 100 },
        paidOn,
      }),
    ).rejects.toThrow("stands here twice");
    expect(await a.read.payment.count()).toBe(0);
    expect(await b.read.payment.count()).toBe(0);
  });

  it("is a deposit too, of which both come off the invoice", async () => {
    for (const shop of [a, b]) {
      const { jobId, grossMinor } = await readyJob(shop);
      await recordDeposit(shop, {
        jobId,
        method: "cash",
        amountMinor: 2_000,
        also: { method: "transfer", amountMinor: 3_050 },
        paidOn,
      });
      expect((await previewInvoice(shop, jobId))?.depositLeftMinor).toBe(5_050);
      const doc = (await getInvoice(shop, await issuedInvoice(shop, jobId)))?.doc;
      expect(doc?.deposits.map((one) => [one.method, one.amountMinor])).toEqual([
        ["cash", 2_000],
        ["transfer", 3_050],
      ]);
      expect([doc?.prepaidMinor, doc?.dueMinor]).toEqual([5_050, grossMinor - 5_050]);
    }
  });
});

describe("a sale over the counter paid in two ways", () => {
  it("prints each with the rounding and the change of the cash, re-added by hand with tax in the prices", async () => {
    const jet = await partToSell(a);
    const sale = await sold(
      a,
      saleOf([line(jet, 2, 84_200)], {
        method: "cash",
        givenMinor: 2_000,
        also: { method: "card", amountMinor: 501 },
      }),
    );
    const doc = storedInvoice(sale.invoices[0]?.frozen);
    // 2 x 8.42 = 16.84; 5.01 by card leaves 11.83, in 5 cent coins 11.85; of 20.00 given 8.15 go back.
    expect(doc.grossMinor).toBe(1_684);
    expect(doc.settlements).toEqual([
      { method: "card", amountMinor: 501, roundingMinor: 0, givenMinor: 501, changeMinor: 0 },
      { method: "cash", amountMinor: 1_185, roundingMinor: 2, givenMinor: 2_000, changeMinor: 815 },
    ]);
    expect(sale.payments.map((one) => [one.method, one.amountMinor, one.roundingMinor])).toEqual([
      ["card", 501, 0],
      ["cash", 1_185, 2],
    ]);
    expect(await problemsOf(a)).toEqual([]);
    await takeBack(a, { saleId: sale.id, reason: "Wrong size", method: "card", back: [jet] });
    expect((await saleNow(a, sale.id)).payments.at(-1)).toMatchObject({ kind: "refund", amountMinor: 1_684 });
    expect(await problemsOf(a)).toEqual([]);
  });

  it("holds with tax on top and whole kroner", async () => {
    const jet = await partToSell(b, { price: "68.00" });
    const sale = await sold(
      b,
      saleOf([line(jet, 2, 680_000)], { method: "cash", also: { method: "card", amountMinor: 10_040 } }),
    );
    // 136.00 and 25 % are 170.00; 100.40 by card leave 69.60: 70 kroner.
    expect(storedInvoice(sale.invoices[0]?.frozen).settlements).toMatchObject([
      { method: "card", amountMinor: 10_040 },
      { method: "cash", amountMinor: 7_000, roundingMinor: 40, changeMinor: 0 },
    ]);
    expect(await problemsOf(b)).toEqual([]);
  });

  it("is refused where the other part leaves nothing, is of the same method, or is half typed", async () => {
    const jet = await partToSell(a);
    const two = saleOf([line(jet, 2, 84_200)], { method: "cash" });
    await expect(sell(a, { ...two, also: { method: "card", amountMinor: 1_684 } })).rejects.toMatchObject({
      fields: { alsoAmount: "Less than 16.84." },
    });
    await expect(sell(a, { ...two, also: { method: "cash", amountMinor: 100 } })).rejects.toThrow("twice");
    await expect(
      sell(a, { ...two, givenMinor: 500, also: { method: "card", amountMinor: 600 } }),
    ).rejects.toThrow("5.00 AUD is less than the 10.85 AUD to be paid.");
    expect(await a.read.sale.count()).toBe(0);
    expect(SellSchema.shape.alsoMethod.safeParse("barter").success).toBe(false);
  });
});

describe("parts of a payment", () => {
  it("settle to the cent for any amounts, coins and order: what is taken less rounding is what was due", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 500_000 }),
        fc.constantFrom(1, 5, 10, 100),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.boolean(),
        (due, step, share, cashFirst) => {
          const card = Math.min(due - 1, Math.max(1, Math.round(due * share)));
          const cash = Math.round((due - card) / step) * step;
          const parts = [
            { method: "card" as const, amountMinor: card },
            { method: "cash" as const, amountMinor: cash },
          ];
          const taken = takeParts(due, cashFirst ? parts.reverse() : parts, step, book);
          expect(taken.map((part) => part.method)).toEqual(parts.map((part) => part.method));
          expect(taken.reduce((sum, part) => sum + part.amountMinor - part.roundingMinor, 0)).toBe(due);
          const handed = handedOver(
            due,
            { method: "cash", givenMinor: null, also: { method: "card", amountMinor: card } },
            step,
            book,
          );
          expect(handed.map((part) => part.amountMinor)).toEqual([card, cash]);
        },
      ),
    );
  });
});
