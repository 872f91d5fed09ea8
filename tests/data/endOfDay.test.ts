import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { closeDay } from "@/lib/data/endOfDay/close";
import { exportedDays } from "@/lib/data/endOfDay/export";
import { getDay, listDays } from "@/lib/data/endOfDay/get";
import { moveCash } from "@/lib/data/endOfDay/moves";
import { daysNotClosed, getOpenDay } from "@/lib/data/endOfDay/open";
import { recordPayment } from "@/lib/data/payments/record";
import { takeBack } from "@/lib/data/sales/takeBack";
import type { ShopHandle } from "@/lib/db/shop";
import { netOf } from "@/lib/domain/endOfDay/takings";
import { movedMinor } from "@/lib/domain/invoices/held";
import { closed, dayToClose } from "../support/endOfDay";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { line, partToSell, saleOf, sold } from "../support/sales";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;
let jet: number;

/** Noon of a November day in Sydney; Oslo has the same day. */
const on = (shop: ShopHandle, day: number) => as(shop, { now: new Date(Date.UTC(2026, 10, day, 1)) });
const dated = (day: number) => `2026-11-${day}`;

beforeAll(async () => {
  ({ a, b } = await twoShops(new Date("2026-11-25T01:00:00Z")));
  await nameShop(a, { cashRoundingMinor: 5 });
  await nameShop(b, { cashRoundingMinor: 100 });
  jet = await partToSell(a);
});

// One story: each part goes on from the one before.
describe("the end of a day", () => {
  it("is offered for today alone before the first one, and asks for no other day then", async () => {
    await sold(on(a, 23), saleOf([line(jet, 1, 84_200)]));
    const open = await dayToClose(on(a, 25));
    expect([open.day, open.fromDay, open.days, open.floatMinor]).toEqual([
      dated(25),
      dated(25),
      [dated(25)],
      null,
    ]);
    expect(open.money).toEqual([]);
    expect(await daysNotClosed(on(a, 25), dated(25))).toEqual([]);
  });

  it("expects float, cash sold and given back, and what was put in or taken out, re-added by hand", async () => {
    // 2 x 8.42 = 16.84, in 5 cent coins 16.85; by card 8.42.
    const sale = await sold(on(a, 25), saleOf([line(jet, 2, 84_200)]));
    await sold(on(a, 25), saleOf([line(jet, 1, 84_200)], { method: "card" }));
    await sold(on(a, 25), saleOf([line(jet, 3, 84_200)]));
    await takeBack(on(a, 25), { saleId: sale.id, reason: "Wrong size", method: "cash", back: [jet] });
    await moveCash(on(a, 25), { day: dated(25), amountMinor: -320, reason: "Stamps" });
    await moveCash(on(a, 25), { day: dated(25), amountMinor: 1000, reason: "Small change" });
    const open = await dayToClose(on(a, 25));
    // 25.26 is 25.25 in coins.
    expect(open.takings).toMatchObject([
      {
        method: "cash",
        count: 3,
        soldMinor: 1685 + 2525,
        returnedMinor: 1685,
        netMinor: 2525,
        roundingMinor: -1,
      },
      { method: "card", count: 1, soldMinor: 842, netMinor: 842 },
    ]);
    expect(open.expectedMinor).toBe(2525 - 320 + 1000);
    expect(await b.read.payment.count()).toBe(0);
  });

  it("is refused with a difference and no reason, and where more is to stay than there is", async () => {
    await expect(closed(on(a, 25), { floatMinor: 10_000, sumMinor: 13_105 })).rejects.toMatchObject({
      message: "The drawer is 1.00 AUD short.",
      fields: { reason: expect.stringContaining("say why") },
    });
    await expect(closed(on(a, 25), { floatMinor: 10_000, terminalMinor: 900 })).rejects.toMatchObject({
      message: "The card terminal is 0.58 AUD over.",
    });
    await expect(closed(on(a, 25), { floatMinor: 10_000, leftMinor: 13_206 })).rejects.toMatchObject({
      fields: { left: expect.stringContaining("132.05") },
    });
    await expect(closed(on(a, 25), { floatMinor: null })).rejects.toMatchObject({
      fields: { float: expect.any(String) },
    });
    expect(await a.read.endOfDay.count()).toBe(0);
  });

  it("is refused once money was recorded since the page was opened", async () => {
    const open = await dayToClose(on(a, 25));
    await sold(on(a, 25), saleOf([line(jet, 1, 84_200)], { method: "card" }));
    await expect(
      closeDay(on(a, 25), {
        day: open.day,
        seen: open.seen,
        floatMinor: 10_000,
        pieces: [],
        sumMinor: 13_205,
        leftMinor: null,
        reason: "",
        terminalMinor: null,
        terminalReason: "",
      }),
    ).rejects.toMatchObject({ kind: "conflict", message: expect.stringContaining("while you counted") });
  });

  it("closed by two at once is closed by one, the other is told; counted by coins it re-adds", async () => {
    const pieces = [
      { valueMinor: 10_000, pieces: 1 },
      { valueMinor: 2000, pieces: 1 },
      { valueMinor: 1000, pieces: 1 },
      { valueMinor: 100, pieces: 1 },
      { valueMinor: 5, pieces: 1 },
      { valueMinor: 50, pieces: 0 },
    ];
    const count = { floatMinor: 10_000, pieces, sumMinor: null, reason: "Nobody knows", terminalMinor: 1684 };
    const both = await Promise.allSettled([closed(on(a, 25), count), closed(on(a, 25), count)]);
    expect(both.map((one) => one.status).sort()).toEqual(["fulfilled", "rejected"]);
    const lost = both.find((one) => one.status === "rejected");
    expect(lost?.reason).toMatchObject({ kind: "conflict", message: "25 Nov 2026 is closed already." });
    const [{ id } = { id: 0 }] = (await listDays(a)).rows;
    const day = await getDay(a, id);
    expect(day?.doc.drawer).toEqual({
      expectedMinor: 13_205,
      countedMinor: 13_105,
      differenceMinor: -100,
      reason: "Nobody knows",
    });
    expect([day?.doc.leftMinor, day?.doc.takenMinor, day?.doc.pieces.length]).toEqual([10_000, 3105, 5]);
    expect(day?.doc.terminal).toMatchObject({ differenceMinor: 0, reason: "" });
    expect(day?.money.map((one) => one.document?.kind)).toEqual([
      "receipt",
      "receipt",
      "receipt",
      "creditNote",
      "receipt",
    ]);
    expect(await listDays(b)).toEqual({ rows: [], next: null });
    expect(await getDay(b, id)).toBeNull();
  });

  it("never changes, in the database itself", async () => {
    await expect(a.write((tx) => tx.endOfDay.updateMany({ data: { countedMinor: 1 } }))).rejects.toThrow(
      /only grows/,
    );
    await expect(a.write((tx) => tx.endOfDay.deleteMany())).rejects.toThrow(/only grows/);
    await expect(a.write((tx) => tx.drawerMove.updateMany({ data: { amountMinor: 1 } }))).rejects.toThrow(
      /only grows/,
    );
  });

  it("takes no more cash for a closed day, says what to do, and records the rest as later", async () => {
    await expect(sold(on(a, 25), saleOf([line(jet, 1, 84_200)]))).rejects.toMatchObject({
      message: expect.stringContaining("closed up to 25 Nov 2026"),
      remedy: expect.stringContaining("tomorrow"),
    });
    await expect(
      moveCash(on(a, 26), { day: dated(24), amountMinor: 5, reason: "Found" }),
    ).rejects.toMatchObject({ fields: { paidOn: expect.stringContaining("26 Nov 2026 or later") } });
    const { jobId, grossMinor } = await readyJob(on(a, 26));
    const invoiceId = await issuedInvoice(on(a, 26), jobId);
    await recordPayment(on(a, 26), { invoiceId, method: "transfer", amountMinor: 1000, paidOn: dated(25) });
    await expect(
      recordPayment(on(a, 26), { invoiceId, method: "cash", amountMinor: 1000, paidOn: dated(25) }),
    ).rejects.toMatchObject({ kind: "conflict" });
    await recordPayment(on(a, 27), {
      invoiceId,
      method: "card",
      amountMinor: grossMinor - 1000,
      paidOn: dated(27),
    });
    const [{ id } = { id: 0 }] = (await listDays(a)).rows;
    const day = await getDay(a, id);
    expect(day?.after).toMatchObject([
      { method: "transfer", amountMinor: 1000, document: { kind: "invoice" } },
    ]);
    expect(day?.doc.payments).toHaveLength(5);
  });

  it("is asked for of each day with money since, the oldest first, and goes on from what stayed in the drawer", async () => {
    await sold(on(a, 29), saleOf([line(jet, 1, 84_200)]));
    expect(await daysNotClosed(on(a, 30), dated(30))).toEqual([dated(27), dated(29)]);
    expect(await getOpenDay(on(a, 30), dated(26))).toBeNull();
    const open = await dayToClose(on(a, 30));
    // Nothing was closed for the 26th, which saw no money: it goes with the 27th.
    expect([open.day, open.fromDay, open.floatMinor]).toEqual([dated(27), dated(26), 10_000]);
    await closed(on(a, 30), { leftMinor: 5000 });
    const both = await dayToClose(on(a, 30), dated(30));
    expect([both.fromDay, both.expectedMinor]).toEqual([dated(28), 5000 + 840]);
    await closed(on(a, 30), { day: dated(30) });
    expect(await getOpenDay(on(a, 30))).toBeNull();
    expect(await problemsOf(a)).toEqual([]);
  });

  it("sums over all days to the payments since the first one", async () => {
    let total = 0;
    for await (const { doc, after } of exportedDays(a))
      total += [...doc.takings, ...after].reduce((sum, one) => sum + one.netMinor, 0);
    const payments = await a.read.payment.findMany({
      where: { paidOn: { gte: dated(25) } },
      orderBy: { id: "asc" },
    });
    expect(total).toBe(payments.reduce((sum, one) => sum + movedMinor(one), 0));
    expect(await b.read.endOfDay.count()).toBe(0);
  });

  it("is of the shop's own day, whatever day it is elsewhere", async () => {
    // 23:30 on the 25th in Oslo is the 26th in Sydney.
    const late = new Date("2026-11-25T22:30:00Z");
    expect((await dayToClose(as(b, { now: late }))).day).toBe(dated(25));
    expect(netOf((await dayToClose(as(b, { now: late }))).takings, "cash")).toBe(0);
  });
});
