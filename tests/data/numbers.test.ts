import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { newOrderIn } from "@/lib/data/orders/draft";
import { sell } from "@/lib/data/sales/sell";
import { beginSeries, numberSeries } from "@/lib/data/shop/numbers";
import type { ShopHandle } from "@/lib/db/shop";
import { FirstNumberSchema, NUMBERED, NUMBERED_KINDS, type NumberedKind } from "@/lib/schemas/numbers";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { line, partToSell, saleOf } from "../support/sales";
import { twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const nextOf = async (shop: ShopHandle, kind: NumberedKind) =>
  (await numberSeries(shop)).find((one) => one.kind === kind);

/** One document of every kind; answers their numbers. */
async function oneOfEach(shop: ShopHandle): Promise<Record<NumberedKind, number | null>> {
  const { jobId } = await readyJob(shop);
  const invoiceId = await issuedInvoice(shop, jobId);
  const creditId = await creditInvoice(shop, { id: invoiceId, reason: "Wrong bike" });
  const part = await partToSell(shop);
  await sell(shop, saleOf([line(part, 1, 84_200)], { method: "card" }));
  const supplier = await shop.write((tx) =>
    tx.supplier.create({
      data: { name: "Harrow Brass", searchKey: "harrow brass", createdAt: shop.now },
    }),
  );
  await shop.write((tx) => newOrderIn(tx, shop, supplier.id));
  const newest = { orderBy: { id: "desc" } } as const;
  return {
    quote: (await shop.read.quote.findFirstOrThrow(newest)).number,
    job: (await shop.read.job.findFirstOrThrow(newest)).number,
    invoice: (await invoiceNow(shop, invoiceId)).number,
    creditNote: (await invoiceNow(shop, creditId)).number,
    receipt: (await shop.read.invoice.findFirstOrThrow({ where: { kind: "receipt" } })).number,
    order: (await shop.read.purchaseOrder.findFirstOrThrow(newest)).number,
  };
}

describe("a shop's own numbers", () => {
  it("are where its page says they begin, when nobody chose any", async () => {
    const said = Object.fromEntries((await numberSeries(a)).map((one) => [one.kind, one.next]));
    expect(said).toEqual(Object.fromEntries(NUMBERED_KINDS.map((kind) => [kind, NUMBERED[kind].first])));
    expect(await oneOfEach(a)).toEqual(said);
    expect((await numberSeries(a)).every((one) => one.begun)).toBe(true);
  });

  it("begin where its books ended, each kind by itself, in this shop alone, without a gap", async () => {
    for (const [at, kind] of NUMBERED_KINDS.entries())
      await beginSeries(a, { kind, first: 47_000 + at * 100 });
    expect(await oneOfEach(a)).toEqual({
      quote: 47_000,
      job: 47_100,
      invoice: 47_200,
      creditNote: 47_300,
      receipt: 47_400,
      order: 47_500,
    });
    const part = await partToSell(a);
    const sale = saleOf([line(part, 1, 84_200)], { method: "card" });
    await Promise.all(Array.from({ length: 5 }, () => sell(a, sale)));
    const receipts = await a.read.invoice.findMany({
      where: { kind: "receipt" },
      orderBy: { number: "asc" },
    });
    expect(receipts.map((one) => one.number)).toEqual([0, 1, 2, 3, 4, 5].map((more) => 47_400 + more));
    expect(await problemsOf(a)).toEqual([]);
    expect(await nextOf(b, "receipt")).toMatchObject({ next: 501, begun: false });
  });

  it("may be chosen anew until the first is issued, and not after it, also at the same moment", async () => {
    await beginSeries(a, { kind: "receipt", first: 9000 });
    await beginSeries(a, { kind: "receipt", first: 120 });
    expect(await nextOf(a, "receipt")).toMatchObject({ next: 120, begun: false });
    const part = await partToSell(a);
    const sale = saleOf([line(part, 1, 84_200)], { method: "card" });
    const [, late] = await Promise.allSettled([sell(a, sale), beginSeries(a, { kind: "receipt", first: 7 })]);
    const { number } = await a.read.invoice.findFirstOrThrow({ where: { kind: "receipt" } });
    expect(number).toBe(late.status === "fulfilled" ? 7 : 120);
    await expect(beginSeries(a, { kind: "receipt", first: 800 })).rejects.toThrow(/numbered already/);
    expect((await nextOf(a, "receipt"))?.next).toBe((number ?? 0) + 1);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("are whole, from 1, and no longer than the search knows", () => {
    for (const first of ["0", "-4", "1.5", "1234567890", "", "12a"])
      expect(FirstNumberSchema.safeParse({ kind: "quote", first }).success, first).toBe(false);
    expect(FirstNumberSchema.parse({ kind: "quote", first: " 999999999 " }).first).toBe(999_999_999);
  });
});
