import { beforeEach, describe, expect, it } from "vitest";
import { bookLine, bookLines } from "@/lib/data/bank/book";
import { reopenLine, setAside } from "@/lib/data/bank/decide";
import { bankFormat } from "@/lib/data/bank/format";
import { decidedLines, waitingLines } from "@/lib/data/bank/lines";
import { previewBankList, takeBankListIn } from "@/lib/data/bank/takeIn";
import { problemsOf } from "@/lib/data/books/invariants";
import { getInvoice } from "@/lib/data/invoices/get";
import { balanceOf } from "@/lib/data/payments/balance";
import { recordPayment } from "@/lib/data/payments/record";
import type { ShopHandle } from "@/lib/db/shop";
import type { Proposal } from "@/lib/domain/bank/types";
import { BankListSchema } from "@/lib/schemas/bank";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { as, twoShops } from "../support/shops";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const HEAD = "Date;Amount;Text;Payer";
const list = (rows: readonly string[], more: Record<string, unknown> = {}) =>
  BankListSchema.parse({
    fileName: "november.csv",
    text: [HEAD, ...rows].join("\n"),
    columns: { date: "0", amount: "1", text: "2", payer: "3" },
    dates: "dmy",
    mark: ".",
    ...more,
  });
const money = (minor: number) => (minor / 100).toFixed(2);
const takesOf = (proposal: Proposal | null) =>
  (proposal?.takes ?? []).map(({ item, minor }) => ({ kind: item.kind, id: item.id, minor }));
const left = async (shop: ShopHandle, id: number) => (await getInvoice(shop, id))?.leftMinor;
/** An invoice of a shop, its customer, and what is due on it. */
const open = async (shop: ShopHandle, before?: Awaited<ReturnType<typeof readyJob>>["ready"]) => {
  const { jobId, ready } = await readyJob(shop, before);
  const id = await issuedInvoice(shop, jobId);
  const view = await getInvoice(shop, id);
  if (!view?.customer) throw new Error("No customer.");
  return { id, jobId, ready, written: view.written, dueMinor: view.leftMinor, customer: view.customer };
};

describe("a bank's list", () => {
  it("is taken in once: the same file, or a longer one, brings only what is new; columns are remembered", async () => {
    const rows = [
      "24.11.2026;100.00;Thanks;Kari",
      "24.11.2026;100.00;Thanks;Kari",
      "31.11.2026;5;x;",
      "25.11.2026;-9.50;Fee;",
    ];
    expect(await previewBankList(a, list(rows))).toMatchObject({
      added: 3,
      incoming: 2,
      known: 0,
      problems: [{ line: 4 }],
    });
    expect(await a.read.bankLine.count()).toBe(0);
    await takeBankListIn(a, list(rows), "key-one");
    await takeBankListIn(a, list(rows), "key-one");
    expect(await takeBankListIn(a, list([...rows, "25.11.2026;7;More;Odd"]), "key-two")).toMatchObject({
      added: 1,
      known: 3,
    });
    // Other columns chosen: the rows are the same ones all the same.
    const other = list(rows, { columns: { date: "0", amount: "1", text: "3" } });
    expect(await previewBankList(a, other)).toMatchObject({ added: 0, known: 3 });
    expect(
      (await a.read.bankLine.findMany({ orderBy: { id: "asc" } })).map((line) => line.amountMinor),
    ).toEqual([10_000, 10_000, -950, 700]);
    expect(await bankFormat(a.read)).toEqual({
      columns: {
        date: "Date",
        amount: "Amount",
        moneyIn: null,
        moneyOut: null,
        text: "Text",
        reference: null,
        payer: "Payer",
      },
      dates: "dmy",
      mark: ".",
    });
    expect([await b.read.bankLine.count(), await bankFormat(b.read)]).toEqual([0, null]);
    await expect(takeBankListIn(a, list(["x;y;z;"]), "key-three")).rejects.toThrow(/No row of this file/);
  });

  it("has lines and decisions that nobody can change or remove", async () => {
    await takeBankListIn(a, list(["24.11.2026;1.00;x;"]));
    for (const change of [
      () => a.write((tx) => tx.bankLine.updateMany({ data: { amountMinor: 2 } })),
      () => a.write((tx) => tx.bankLine.deleteMany({})),
      () => a.write((tx) => tx.bankList.deleteMany({})),
      () => a.write((tx) => tx.bankLine.updateMany({ data: { state: "lost" } })),
    ])
      await expect(change()).rejects.toThrow(/only grows|one of its words/);
  });
});

describe("lines of money that came in", () => {
  it("are booked as they were proposed, once, and taken back whole", async () => {
    for (const shop of [a, b]) {
      const one = await open(shop);
      const two = await open(shop, one.ready);
      const both = one.dueMinor + two.dueMinor;
      await takeBankListIn(
        shop,
        list([
          `24.11.2026;${money(one.dueMinor)};Invoice ${one.written};`,
          `24.11.2026;${money(two.dueMinor + 500)};paying ${two.written};${two.customer.name}`,
          `25.11.2026;${money(both)};transfer;Nobody known`,
        ]),
      );
      const { lines } = await waitingLines(shop);
      expect(lines.map((line) => [line.proposal?.certainty, line.proposal?.overMinor])).toEqual([
        ["certain", 0],
        ["likely", 500],
        [undefined, undefined],
      ]);
      const toBook = lines
        .slice(0, 2)
        .map(({ id, version, proposal }) => ({ id, version, takes: takesOf(proposal) }));
      expect(await bookLines(shop, { lines: toBook, key: "k" })).toEqual({ booked: 2, refused: [] });
      expect(await bookLines(shop, { lines: toBook, key: "k" })).toEqual({ booked: 2, refused: [] });
      expect(await shop.read.payment.count()).toBe(3);
      expect((await bookLines(shop, { lines: toBook, key: "other" })).refused).toHaveLength(2);
      expect([
        await left(shop, one.id),
        await left(shop, two.id),
        await balanceOf(shop, two.customer.id),
      ]).toEqual([0, -500, 500]);
      const { lines: decided } = await decidedLines(shop, "booked", undefined);
      expect(decided.map((line) => line.decisions[0]?.payments.length)).toEqual([2, 1]);
      expect((await shop.read.payment.findMany()).map((row) => [row.method, row.paidOn])).toEqual(
        Array(3).fill(["transfer", "2026-11-24"]),
      );
      expect(await problemsOf(shop)).toEqual([]);
      const [second] = decided;
      const later = as(shop, { now: new Date(shop.now.getTime() + 60_000) });
      await reopenLine(later, { id: second?.id ?? 0, version: second?.version ?? 0, why: "wrong customer" });
      expect([await left(shop, two.id), await balanceOf(shop, two.customer.id)]).toEqual([two.dueMinor, 0]);
      expect((await waitingLines(shop)).lines.map((line) => line.proposal?.certainty)).toEqual([
        "likely",
        undefined,
      ]);
      await expect(
        reopenLine(later, { id: second?.id ?? 0, version: second?.version ?? 0, why: "" }),
      ).rejects.toMatchObject({ kind: "conflict" });
      expect(await problemsOf(shop)).toEqual([]);
    }
    expect(await a.read.bankLine.count()).toBe(3);
  });

  it("are split over several papers by hand, or kept as the balance of a customer who owes nothing", async () => {
    const one = await open(a);
    const two = await open(a, one.ready);
    await takeBankListIn(a, list(["24.11.2026;50.00;a;", "24.11.2026;20.00;b;"]));
    const [first, second] = (await waitingLines(a)).lines;
    const seen = { id: first?.id ?? 0, version: 1 };
    const take = (id: number, minor: number) => ({ kind: "invoice" as const, id, minor });
    for (const [takes, wrong] of [
      [[take(one.id, 4000), take(two.id, 2000)], /more than the line brings/],
      [[], /Nothing was chosen/],
    ] as const) {
      await expect(bookLine(a, { ...seen, takes })).rejects.toThrow(wrong);
    }
    expect(await a.read.payment.count()).toBe(0);
    await bookLine(a, { ...seen, takes: [take(one.id, 3000), take(two.id, 2000)] });
    expect([await left(a, one.id), await left(a, two.id)]).toEqual([
      one.dueMinor - 3000,
      two.dueMinor - 2000,
    ]);
    for (const { id } of [one, two])
      await recordPayment(a, {
        invoiceId: id,
        amountMinor: (await left(a, id)) ?? 0,
        method: "card",
        paidOn: "2026-11-25",
      });
    await bookLine(a, { id: second?.id ?? 0, version: 1, takes: [], customerId: one.customer.id });
    expect(await balanceOf(a, one.customer.id)).toBe(2000);
    const later = as(a, { now: new Date(a.now.getTime() + 60_000) });
    await reopenLine(later, { id: second?.id ?? 0, version: 2, why: "" });
    expect(await balanceOf(a, one.customer.id)).toBe(0);
    expect(await problemsOf(a)).toEqual([]);
  });

  it("that cannot be booked any more as they were shown keep waiting, with why; the others are booked", async () => {
    const one = await open(a);
    const two = await open(a, one.ready);
    await takeBankListIn(
      a,
      list([
        `24.11.2026;${money(one.dueMinor)};${one.written};`,
        `24.11.2026;${money(two.dueMinor)};${two.written};`,
      ]),
    );
    const { lines } = await waitingLines(a);
    const toBook = lines.map(({ id, version, proposal }) => ({ id, version, takes: takesOf(proposal) }));
    await recordPayment(a, { invoiceId: one.id, amountMinor: 100, method: "card", paidOn: "2026-11-25" });
    const { booked, refused } = await bookLines(a, { lines: toBook });
    expect([booked, refused.map((one) => one.why)]).toEqual([
      1,
      [expect.stringContaining("more than is due")],
    ]);
    const { lines: waiting } = await waitingLines(a);
    expect(waiting.map((line) => [line.state, line.proposal?.certainty])).toEqual([["waiting", "likely"]]);
    await setAside(a, { id: waiting[0]?.id ?? 0, version: waiting[0]?.version ?? 0, reason: "notOurs" });
    expect((await waitingLines(a)).lines).toEqual([]);
    const { lines: aside } = await decidedLines(a, "aside", undefined);
    expect(aside[0]?.decisions[0]).toMatchObject({ act: "aside", why: "not for the shop" });
    await expect(setAside(b, { id: aside[0]?.id ?? 0, version: 2, reason: "fee" })).rejects.toMatchObject({
      kind: "missing",
    });
  });
});
