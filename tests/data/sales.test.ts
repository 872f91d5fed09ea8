import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { mailInvoice } from "@/lib/data/invoices/links";
import { listInvoices } from "@/lib/data/invoices/list";
import { enclosedWith } from "@/lib/data/mail/attachments";
import { recordPayment } from "@/lib/data/payments/record";
import { invoiceSale } from "@/lib/data/sales/fullInvoice";
import { getSale, recentSales } from "@/lib/data/sales/get";
import { findForSale } from "@/lib/data/sales/parts";
import { sell } from "@/lib/data/sales/sell";
import { takeBack } from "@/lib/data/sales/takeBack";
import { searchAll } from "@/lib/data/search/search";
import { recordMove } from "@/lib/data/stock/moves";
import type { ShopHandle } from "@/lib/db/shop";
import { lying } from "../support/bins";
import { nameShop } from "../support/invoices";
import { oneJob } from "../support/oneJob";
import { ORIGIN, readyToQuote } from "../support/quotes";
import { line, partToSell, saleNow, saleOf, sold } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a, { cashRoundingMinor: 5 });
  await nameShop(b, { pricesIncludeTax: false, cashRoundingMinor: 100 });
});

const partNow = (shop: ShopHandle, id: number) => shop.read.part.findUniqueOrThrow({ where: { id } });
const nothingSold = async (shop: ShopHandle) => {
  expect(await shop.read.sale.count()).toBe(0);
  expect(await shop.read.invoice.count()).toBe(0);
  expect(await shop.read.payment.count()).toBe(0);
  expect(await shop.read.move.count({ where: { saleId: { not: null } } })).toBe(0);
};
const withAddress = async (shop: ShopHandle) => {
  const { customerId } = await readyToQuote(shop);
  await shop.write((tx) =>
    tx.customer.update({ where: { id: customerId }, data: { address: "9 Ridge Road\nSaltpan" } }),
  );
  return customerId;
};

describe("a sale over the counter", () => {
  it("with tax in the prices prints lines, tax, rounding and change, re-added by hand", async () => {
    const jet = await partToSell(a);
    const gasket = await partToSell(a, { name: "Bowl gasket", price: "3.10" });
    const sale = await sold(
      a,
      saleOf([line(jet, 2, 84_200), line(gasket, 1, 31_000, { discount: 1000 })], { givenMinor: 2000 }),
    );
    const [invoice] = sale.invoices;
    const doc = storedInvoice(invoice?.frozen);
    // 2 x 8.42 = 16.84; 3.10 - 0.31 = 2.79; 19.63, of which 1/11 is 1.78.
    expect(doc.lines.map((one) => one.shownMinor)).toEqual([1684, 310, -31]);
    expect([doc.grossMinor, doc.taxMinor, doc.netMinor]).toEqual([1963, 178, 1785]);
    // In 5 cent coins 19.65 of 20.00 given: 0.35 back.
    expect(doc.settlements).toEqual([
      {
        method: "cash",
        amountMinor: 1965,
        roundingMinor: 2,
        givenMinor: 2000,
        changeMinor: 35,
      },
    ]);
    expect([doc.kind, doc.number, doc.title, doc.jobs, doc.buyer.name]).toEqual([
      "receipt",
      501,
      "Tax invoice",
      [],
      "",
    ]);
    expect(sale.payments).toMatchObject([
      { kind: "payment", amountMinor: 1965, roundingMinor: 2, invoiceId: invoice?.id, jobId: null },
    ]);
    expect(sale.moves.map((move) => [move.partId, move.kind, move.quantityMilli])).toEqual([
      [jet, "use", -2000],
      [gasket, "use", -1000],
    ]);
    expect((await partNow(a, jet)).onHandMilli).toBe(8000);
    expect(await problemsOf(a)).toEqual([]);
    expect(await b.read.sale.count()).toBe(0);
  });

  it("with tax on top rounds cash to whole kroner, re-added by hand", async () => {
    const jet = await partToSell(b, { price: "68.00" });
    const gasket = await partToSell(b, { price: "33.33" });
    const sale = await sold(
      b,
      saleOf([line(jet, 2, 680_000), line(gasket, 1, 333_300)], { givenMinor: 50_000 }),
    );
    const doc = storedInvoice(sale.invoices[0]?.frozen);
    // 136.00 + 33.33 = 169.33; 25 % is 42.3325; 211.66; 212 kroner of 500 given.
    expect([doc.netMinor, doc.taxMinor, doc.grossMinor]).toEqual([16_933, 4233, 21_166]);
    expect(doc.settlements).toMatchObject([{ amountMinor: 21_200, roundingMinor: 34, changeMinor: 28_800 }]);
    expect([doc.title, doc.currency]).toEqual(["Salgskvittering", "NOK"]);
    expect(await problemsOf(b)).toEqual([]);
  });

  it("by card is paid to the cent, whatever coins there are", async () => {
    const jet = await partToSell(a);
    const sale = await sold(a, saleOf([line(jet, 1, 84_200)], { method: "card" }));
    expect(sale.payments).toMatchObject([{ method: "card", amountMinor: 842, roundingMinor: 0 }]);
    expect(storedInvoice(sale.invoices[0]?.frozen).settlements).toMatchObject([{ changeMinor: 0 }]);
  });

  it("sent twice is sold once, and with other contents under the same key refused", async () => {
    const jet = await partToSell(a);
    const input = saleOf([line(jet, 2, 84_200)], { key: "one-sale-key" });
    const [first, again] = await Promise.all([sell(a, input), sell(a, input)]);
    expect(again).toBe(first);
    expect((await partNow(a, jet)).onHandMilli).toBe(8000);
    expect(await a.read.payment.count()).toBe(1);
    await expect(sell(a, { ...input, lines: [line(jet, 3, 84_200)] })).rejects.toMatchObject({
      kind: "repeated",
    });
  });

  it("is not made at another total than was shown, nor with too little given, nor of more than there is", async () => {
    const jet = await partToSell(a);
    const sale = saleOf([line(jet, 2, 84_200)]);
    await expect(sell(a, { ...sale, shownMinor: 1600 })).rejects.toThrow(
      /total has changed from 16.00 to 16.84/,
    );
    await expect(sell(a, { ...sale, givenMinor: 1600 })).rejects.toThrow(/less than the 16.85 AUD/);
    await expect(sell(a, saleOf([line(jet, 11, 84_200)]))).rejects.toThrow(/Only 10 of/);
    await nothingSold(a);
    expect((await partNow(a, jet)).onHandMilli).toBe(10_000);
  });

  it("leaves what is promised to a job, and says to which", async () => {
    const jet = await partToSell(a, { opening: "2" });
    const { jobId, number } = await oneJob(a);
    await a.write(async (tx) => {
      await tx.part.update({ where: { id: jet }, data: { reservedMilli: 1000 } });
      await tx.reservation.create({
        data: { partId: jet, jobId, wantedMilli: 1000, reservedMilli: 1000, createdAt: a.now },
      });
    });
    await expect(sell(a, saleOf([line(jet, 2, 84_200)]))).rejects.toThrow(new RegExp(`job ${number}`));
    await nothingSold(a);
  });

  it("goes to one of two who sell the last jet at once; the other is told there is none", async () => {
    const jet = await partToSell(a, { opening: "1" });
    const tried = await Promise.allSettled([1, 2].map(() => sell(a, saleOf([line(jet, 1, 84_200)]))));
    expect(tried.filter((one) => one.status === "fulfilled")).toHaveLength(1);
    expect(await a.read.invoice.findMany({ select: { number: true } })).toEqual([{ number: 501 }]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("of a fraction says so on its line, and a price of one's own says where it comes from", async () => {
    const lock = await partToSell(a, { name: "Threadlocker", unit: "ml", opening: "50", price: "0.90" });
    const sale = await sold(a, saleOf([{ partId: lock, quantity: 2500, price: 8000, discount: 0 }]));
    const [printed] = storedInvoice(sale.invoices[0]?.frozen).lines;
    // 2.5 ml at 0.80 are 2.00.
    expect(printed).toMatchObject({ quantityMilli: 2500, unit: "ml", shownMinor: 200 });
    expect(printed?.because[0]?.from).toBe("price agreed at the counter");
  });

  it("of nothing to be paid has no payment", async () => {
    const jet = await partToSell(a);
    const sale = await sold(a, saleOf([line(jet, 1, 84_200, { discount: 10_000 })]));
    expect(sale.payments).toEqual([]);
    expect(sale.invoices[0]?.grossMinor).toBe(0);
    expect(await problemsOf(a)).toEqual([]);
  });
});

describe("the paper of a sale", () => {
  it("is a receipt up to the regime's limit, and beyond it a full invoice to a named buyer", async () => {
    const dear = await partToSell(a, { price: "999.99" });
    // GST Act 1999 s 29-70: the buyer's identity from 1,000 AUD (from memory).
    expect((await sold(a, saleOf([line(dear, 1, 9_999_900)]))).invoices[0]?.kind).toBe("receipt");
    const above = saleOf([line(dear, 1, 10_000_000)]);
    await expect(sell(a, above)).rejects.toThrow(/A receipt will not do at this total/);
    const customerId = await withAddress(a);
    const sale = await sold(a, { ...above, paper: "invoice", customerId, method: "transfer" });
    expect(sale.invoices).toMatchObject([{ kind: "invoice", number: 2001, customerId, paidMinor: 100_000 }]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("lacks nothing that its regime asks for: without the shop's number nothing is sold", async () => {
    const jet = await partToSell(a);
    await nameShop(a);
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { taxNumber: "" } }));
    await expect(sell(a, saleOf([line(jet, 1, 84_200)]))).rejects.toThrow(/ABN is missing/);
    await nothingSold(a);
  });

  it("becomes a full invoice on request: the receipt is credited, the money comes off, the parts stay sold", async () => {
    const jet = await partToSell(b, { price: "68.00" });
    const { id } = await sold(b, saleOf([line(jet, 2, 680_000)], { method: "card" }));
    const customerId = await withAddress(b);
    await invoiceSale(b, { saleId: id, customerId });
    const sale = await saleNow(b, id);
    expect(sale.invoices.map((one) => [one.kind, one.number, one.grossMinor])).toEqual([
      ["receipt", 501, 17_000],
      ["creditNote", 301, -17_000],
      ["invoice", 2001, 17_000],
    ]);
    const invoice = storedInvoice(sale.invoices[2]?.frozen);
    expect([invoice.title, invoice.prepaidMinor, invoice.dueMinor]).toEqual(["Faktura", 17_000, 0]);
    expect(invoice.deposits).toEqual([{ paidOn: "2026-11-25", method: "card", amountMinor: 17_000 }]);
    expect(sale.payments).toHaveLength(1);
    expect((await partNow(b, jet)).onHandMilli).toBe(8000);
    await expect(invoiceSale(b, { saleId: id, customerId })).rejects.toThrow(/full invoice already: 2001/);
    expect(await problemsOf(b)).toEqual([]);
    await takeBack(b, { saleId: id, reason: "Wrong size", method: "card", back: [jet] });
    expect((await partNow(b, jet)).onHandMilli).toBe(10_000);
    expect(await problemsOf(b)).toEqual([]);
  });

  it("goes out by mail with its PDF to whoever is named, also to someone who walked in", async () => {
    const jet = await partToSell(a);
    const { invoices } = await sold(a, saleOf([line(jet, 1, 84_200)]));
    await mailInvoice(a, { id: invoices[0]?.id ?? 0, to: "walkin@example.com", origin: ORIGIN });
    const mail = await a.read.mail.findFirstOrThrow({ orderBy: { id: "desc" } });
    expect([mail.to, mail.subject]).toEqual(["walkin@example.com", expect.stringContaining("receipt 501")]);
    expect((await enclosedWith(a, mail.id)).map((one) => one.name)).toEqual(["receipt-501.pdf"]);
  });

  it("is found by its number and its parts, and stands in the lists as paid", async () => {
    const jet = await partToSell(a);
    await sold(a, saleOf([line(jet, 1, 84_200)]));
    const { rows } = await listInvoices(a, { state: "closed" });
    expect(rows).toMatchObject([
      { kind: "receipt", number: 501, standing: "paid", job: null, customer: null },
    ]);
    expect((await listInvoices(a, { state: "unpaid" })).rows).toEqual([]);
    expect(JSON.stringify(await searchAll(a, "501", { invoices: true }))).toContain("Receipt 501");
    expect(await recentSales(a)).toMatchObject([{ kind: "receipt", number: 501 }]);
    expect(await recentSales(b)).toEqual([]);
  });
});

describe("a sale taken back", () => {
  it("brings stock, its bins and its cost, and the money back to where they were", async () => {
    for (const shop of [a, b]) {
      const jet = await partToSell(shop, { opening: "3" });
      await recordMove(shop, {
        partId: jet,
        kind: "receipt",
        quantityMilli: 2000,
        unitCostE4: 31_000,
        bin: "Z",
      });
      const before = await partNow(shop, jet);
      const bins = await lying(shop, jet);
      const { id } = await sold(shop, saleOf([line(jet, 4, 84_200)]));
      await takeBack(shop, { saleId: id, reason: "Not needed", method: "cash", back: [jet] });
      const after = await partNow(shop, jet);
      expect([after.onHandMilli, after.averageE4]).toEqual([before.onHandMilli, before.averageE4]);
      expect(await lying(shop, jet)).toEqual(bins);
      const sale = await saleNow(shop, id);
      const [paid, back] = sale.payments;
      expect([back?.kind, back?.amountMinor, back?.roundingMinor]).toEqual([
        "refund",
        paid?.amountMinor,
        paid?.roundingMinor,
      ]);
      expect((await getSale(shop, id))?.depositLeftMinor).toBe(0);
      const credit = storedInvoice(sale.invoices[1]?.frozen);
      expect(credit).toMatchObject({
        kind: "creditNote",
        number: 301,
        credits: { kind: "receipt", number: 501, reason: "Not needed" },
        settlements: [{ amountMinor: paid?.amountMinor }],
      });
      expect(await problemsOf(shop)).toEqual([]);
    }
  });

  it("scraps what cannot be sold again, and gives it to no job that is short of it", async () => {
    const jet = await partToSell(a, { opening: "1" });
    const sound = await partToSell(a, { opening: "1" });
    const { id } = await sold(a, saleOf([line(jet, 1, 84_200), line(sound, 1, 84_200)]));
    const { jobId } = await oneJob(a);
    await a.write((tx) =>
      tx.reservation.create({
        data: { partId: jet, jobId, wantedMilli: 1000, reservedMilli: 0, createdAt: a.now },
      }),
    );
    await takeBack(a, { saleId: id, reason: "Cracked", method: "card", back: [sound] });
    expect((await partNow(a, jet)).onHandMilli).toBe(0);
    expect((await partNow(a, sound)).onHandMilli).toBe(1000);
    expect((await saleNow(a, id)).moves.map((move) => [move.partId, move.kind])).toEqual([
      [jet, "use"],
      [sound, "use"],
      [jet, "returnToStock"],
      [jet, "scrap"],
      [sound, "returnToStock"],
    ]);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("happens once, whoever asks again, and only in its own shop", async () => {
    const jet = await partToSell(a);
    const { id, invoices } = await sold(a, saleOf([line(jet, 1, 84_200)]));
    const back = { saleId: id, reason: "Not needed", method: "cash", back: [jet] } as const;
    await expect(takeBack(b, { ...back, back: [jet] })).rejects.toMatchObject({ kind: "missing" });
    // A receipt has no job: its money and parts come back together or not at all.
    await expect(creditInvoice(a, { id: invoices[0]?.id ?? 0, reason: "Wrong" })).rejects.toThrow(
      /over the counter/,
    );
    await expect(
      recordPayment(a, {
        invoiceId: invoices[0]?.id ?? 0,
        amountMinor: 1,
        method: "card",
        paidOn: "2026-11-25",
      }),
    ).rejects.toThrow(/paid as they are sold/);
    const tried = await Promise.allSettled([1, 2].map(() => takeBack(a, { ...back, back: [jet] })));
    expect(tried.filter((one) => one.status === "fulfilled")).toHaveLength(1);
    expect((await partNow(a, jet)).onHandMilli).toBe(10_000);
    expect(await a.read.payment.count({ where: { kind: "refund" } })).toBe(1);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("on a day before the last document's asks first", async () => {
    const jet = await partToSell(a);
    const { id } = await sold(a, saleOf([line(jet, 1, 84_200)]));
    const earlier = as(a, { now: new Date(a.now.getTime() - 3 * 86_400_000) });
    const back = { saleId: id, reason: "Not needed", method: "cash" as const, back: [jet] };
    await expect(takeBack(earlier, back)).rejects.toThrow(/receipt 501 is dated/);
    await takeBack(earlier, { ...back, earlier: "on" });
    expect(await problemsOf(a)).toEqual([]);
  });
});

describe("parts found at the counter", () => {
  it("show their list price as the shop shows prices, what is free, and never what they cost", async () => {
    const set = await partToSell(a);
    const marked = await partToSell(a, { price: "" });
    const found = await findForSale(a, (await partNow(a, set)).code);
    expect(found).toMatchObject([{ id: set, priceE4: 84_200, freeMilli: 10_000 }]);
    expect(JSON.stringify(found)).not.toContain("cost");
    // Cost 2.00 plus 100 % and 10 % GST in the price: 4.40 (the shop's first markup band).
    expect((await findForSale(a, (await partNow(a, marked)).code))[0]?.priceE4).toBe(44_000);
    expect(await findForSale(b, (await partNow(a, set)).code)).toEqual([]);
  });
});
