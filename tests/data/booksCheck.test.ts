import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { draftInvoice } from "@/lib/data/invoices/draft";
import { sell } from "@/lib/data/sales/sell";
import type { ShopHandle } from "@/lib/db/shop";
import { closed } from "../support/endOfDay";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { makeJob } from "../support/jobs";
import type { Ready } from "../support/quotes";
import { line, partToSell, saleOf } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let invoiceId: number;
let partId: number;
let ready: Ready;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  for (const shop of [a, b]) {
    await nameShop(shop);
    const job = await readyJob(shop);
    if (shop === a) ready = job.ready;
    const id = await issuedInvoice(shop, job.jobId);
    if (shop === a) invoiceId = id;
    partId = await partToSell(shop);
    await sell(shop, saleOf([line(partId, 2, 84_200)]));
  }
  expect([await problemsOf(a), await problemsOf(b)]).toEqual([[], []]);
});

/** What the check says of the first shop; of the other, which nothing happened to, it says nothing. */
async function said(): Promise<string[]> {
  expect(await problemsOf(b)).toEqual([]);
  return problemsOf(a);
}

describe("the check of the books tells of", () => {
  it("a part whose on hand is not what its moves and its bins add up to, and of which more is promised than is reserved", async () => {
    const { code, onHandMilli } = await a.read.part.findUniqueOrThrow({ where: { id: partId } });
    const [says, reserved] = [onHandMilli + 1_000, 500];
    await a.write((tx) =>
      tx.part.update({ where: { id: partId }, data: { onHandMilli: says, reservedMilli: reserved } }),
    );
    expect(await said()).toEqual([
      `${code}: on hand says ${says}, its moves add up to ${onHandMilli}.`,
      `${code}: reserved says ${reserved}, its reservations 0.`,
      `${code}: on hand says ${says}, its bins add up to ${onHandMilli}.`,
    ]);
  });

  it("a move into a bin that says nothing of it, and that came from none", async () => {
    const { code } = await a.read.part.findUniqueOrThrow({ where: { id: partId } });
    for (const quantityMilli of [300, 200])
      await a.write((tx) =>
        tx.move.create({ data: { partId, kind: "betweenBins", quantityMilli, bin: "Z9", at: a.now } }),
      );
    const found = await said();
    expect(found.filter((one) => one.includes("Z9"))).toEqual([
      `${code}: bin Z9 says 0, its moves add up to 500.`,
    ]);
    expect(found).toContain(`${code}: its moves between bins add up to 500.`);
  });

  it("a time entry that ends before it starts", async () => {
    const { id: jobId } = await makeJob(a);
    const { id: staffId } = await a.read.staff.findFirstOrThrow({ orderBy: { id: "asc" } });
    const startedAt = new Date(a.now.getTime() + 60_000);
    const { id } = await a.write((tx) =>
      tx.timeEntry.create({ data: { staffId, jobId, startedAt, endedAt: a.now }, select: { id: true } }),
    );
    expect(await said()).toContain(`Time entry ${id} ends before it starts.`);
  });

  it("a document whose shares do not add up to its net", async () => {
    const { written, netMinor, issuedOn } = await a.read.invoice.findUniqueOrThrow({
      where: { id: invoiceId },
    });
    await a.write((tx) =>
      tx.documentShare.create({
        data: { invoiceId, issuedOn: issuedOn ?? "", job: "", kind: "outside", netMinor: 5, minutes: 0 },
      }),
    );
    expect(await said()).toEqual([
      `Document ${written}: its shares add up to ${netMinor + 5}, its net is ${netMinor}.`,
    ]);
  });

  it("cash of a day that was closed without it, and of no other day", async () => {
    await closed(a);
    const { saleId, day } = await a.read.payment
      .findFirstOrThrow({ where: { saleId: { not: null } } })
      .then((row) => ({
        saleId: row.saleId,
        day: row.paidOn,
      }));
    const add = (paidOn: string) =>
      a.write((tx) =>
        tx.payment.create({
          data: { kind: "payment", saleId, method: "cash", amountMinor: 100, paidOn, at: a.now },
        }),
      );
    const late = `The end of ${day}: cash was recorded for it after it was closed.`;
    await add("2031-01-01");
    expect(await said()).not.toContain(late);
    await add(day);
    expect(await problemsOf(as(a, {}))).toContain(late);
  });

  it("a job that stands on two invoices", async () => {
    const { jobId } = await a.read.invoice.findUniqueOrThrow({ where: { id: invoiceId } });
    const other = await draftInvoice(a, { jobId: (await readyJob(a, ready)).jobId, basis: "fixed" });
    await a.write((tx) =>
      tx.invoiceJob.create({ data: { invoiceId: other, jobId: jobId ?? 0, basis: "fixed" } }),
    );
    const { number } = await a.read.job.findUniqueOrThrow({ where: { id: jobId ?? 0 } });
    expect(await said()).toContain(`Job ${number} stands on two invoices.`);
  });
});
