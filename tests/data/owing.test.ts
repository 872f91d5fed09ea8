import fc from "fast-check";
import { beforeEach, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { accountLines } from "@/lib/data/chasing/accounts";
import { listOwing, listOwingDocuments } from "@/lib/data/chasing/owing";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { payFromBalance } from "@/lib/data/payments/balance";
import { recordBounced } from "@/lib/data/payments/bounced";
import { recordDeposit, recordPayment, recordRefund } from "@/lib/data/payments/record";
import { recordWriteOff, takeWriteOffBack } from "@/lib/data/payments/writeOff";
import type { ShopHandle } from "@/lib/db/shop";
import { owingCsv } from "@/lib/documents/owing";
import { Refusal } from "@/lib/domain/refusal";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { as, twoShops } from "../support/shops";
import { FULL } from "../support/size";

let a: ShopHandle;
let b: ShopHandle;

beforeEach(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
});

const FIRST = "2026-11-25";
const later = (shop: ShopHandle, days: number) =>
  as(shop, { now: new Date(shop.now.getTime() + days * 86_400_000) });
const transfer = { method: "transfer" as const, reference: "by the test" };

/** What a shop is owed at the end of a day, by its documents and its money alone. */
async function ledger(shop: ShopHandle, day: string): Promise<number> {
  const documents = await shop.read.invoice.findMany({
    where: { state: "issued", saleId: null, issuedOn: { lte: day } },
    select: { frozen: true },
  });
  const money = await shop.read.payment.findMany({ where: { saleId: null, paidOn: { lte: day } } });
  const back = { deposit: 1, payment: 1, writeOff: 1, overpayment: 1, refund: -1, bounced: -1 } as const;
  return (
    documents.reduce((sum, { frozen }) => sum + (frozen as { grossMinor: number }).grossMinor, 0) -
    money.reduce((sum, row) => sum + back[row.kind] * (row.amountMinor - row.roundingMinor), 0)
  );
}

describe("who owes what", () => {
  it("stands by age on any day, and another shop sees none of it", async () => {
    const first = await readyJob(a);
    const second = await readyJob(a, first.ready);
    await recordDeposit(a, { jobId: second.jobId, amountMinor: 50_00, paidOn: FIRST, ...transfer });
    const id = await issuedInvoice(a, first.jobId);
    const { dueOn, grossMinor, written } = await a.read.invoice.findUniqueOrThrow({ where: { id } });
    const due = dueOn ?? "";
    const at = async (days: number) => {
      const { rows, sums } = await listOwing(a, dayAfter(due, days));
      return [rows.map((row) => row.columns), sums.totalMinor];
    };
    const total = grossMinor - 50_00;
    expect(await at(0)).toEqual([[{ notDue: grossMinor, deposit: -50_00 }], total]);
    expect(await at(30)).toEqual([[{ to30: grossMinor, deposit: -50_00 }], total]);
    expect(await at(31)).toEqual([[{ to60: grossMinor, deposit: -50_00 }], total]);
    expect(await at(61)).toEqual([[{ to90: grossMinor, deposit: -50_00 }], total]);
    expect(await at(91)).toEqual([[{ over90: grossMinor, deposit: -50_00 }], total]);
    expect(await listOwing(a, dayAfter(FIRST, -1))).toMatchObject({ rows: [], sums: { totalMinor: 0 } });

    const paidOn = dayAfter(due, 40);
    await recordPayment(later(a, 120), { invoiceId: id, amountMinor: grossMinor, paidOn, ...transfer });
    expect(await at(39)).toEqual([[{ to60: grossMinor, deposit: -50_00 }], total]);
    expect(await at(40)).toEqual([[{ deposit: -50_00 }], -50_00]);
    const { lines } = await listOwingDocuments(a, dayAfter(due, 39), { column: "to60" });
    expect(lines.map(({ of, minor, daysPast }) => [of.number, minor, daysPast])).toEqual([
      [written, grossMinor, 39],
    ]);
    const file = owingCsv(
      (await accountLines(a.read, dayAfter(due, 39))).lines.map(({ customer, of, ...line }) => ({
        ...line,
        customer: customer?.name ?? "",
        document: of.noun,
        number: of.number,
      })),
      { day: dayAfter(due, 39), currency: "AUD" },
    );
    expect(file.split("\r\n").slice(1, 3)).toEqual([
      `${dayAfter(due, 39)},Ines Valdborg,invoice,${written},${FIRST},${due},39,31-60,AUD,${(grossMinor / 100).toFixed(2)}`,
      expect.stringMatching(/,Ines Valdborg,job,\d+,,,0,deposit,AUD,-50\.00$/u),
    ]);
    expect(await listOwing(b, dayAfter(due, 39))).toMatchObject({ rows: [], sums: { totalMinor: 0 } });
  });

  it("tells an over-payment, and what a credit note left, apart from deposits", async () => {
    for (const shop of [a, b]) {
      const first = await readyJob(shop);
      const second = await readyJob(shop, first.ready);
      const one = await issuedInvoice(shop, first.jobId);
      const two = await issuedInvoice(shop, second.jobId);
      const { grossMinor } = first;
      await recordPayment(shop, {
        invoiceId: one,
        amountMinor: grossMinor + 7_00,
        keepRest: true,
        paidOn: FIRST,
        ...transfer,
      });
      await recordPayment(shop, { invoiceId: two, amountMinor: 80_00, paidOn: FIRST, ...transfer });
      await creditInvoice(later(shop, 5), { id: two, reason: "Not what was agreed" });
      const before = await listOwing(shop, dayAfter(FIRST, 4));
      expect(before.rows[0]?.columns).toEqual({ notDue: second.grossMinor - 80_00, balance: -7_00 });
      const { rows } = await listOwing(shop, dayAfter(FIRST, 5));
      expect(rows.map((row) => [row.name, row.columns])).toEqual([
        ["Ines Valdborg", { balance: -7_00, credit: -80_00 }],
      ]);
      expect(await ledger(shop, dayAfter(FIRST, 5))).toBe(-87_00);
    }
  });

  it("adds up to documents and money on every day of random histories", { timeout: 120_000 }, async () => {
    const history = fc.array(
      fc.record({
        act: fc.constantFrom(
          "deposit",
          "issue",
          "issue",
          "issue",
          "pay",
          "payAll",
          "payOver",
          "fromBalance",
          "bounce",
          "creditSome",
          "credit",
          "writeOff",
          "dueAgain",
          "refund",
        ),
        job: fc.integer({ min: 0, max: 2 }),
        share: fc.integer({ min: 1, max: 99 }),
        days: fc.integer({ min: 0, max: 25 }),
        back: fc.integer({ min: 0, max: 20 }),
      }),
      { minLength: 12, maxLength: 22 },
    );
    const ready = await readyJob(a);
    await fc.assert(
      fc.asyncProperty(history, async (acts) => {
        const jobs = [await readyJob(a, ready.ready), await readyJob(a, ready.ready)];
        let days = 0;
        for (const { act, job, share, back, ...one } of acts) {
          days += one.days;
          const now = later(a, days);
          const { jobId } = jobs[job % jobs.length] as (typeof jobs)[number];
          await orRefused(() =>
            doIt(now, act, { jobId, share, paidOn: dayAfter(FIRST, Math.max(0, days - back)) }),
          );
        }
        for (const day of [0, 1, 7, 20, 45, 80, 130, 200, 400].map((some) => dayAfter(FIRST, some))) {
          const { lines } = await accountLines(a.read, day);
          expect([day, lines.reduce((sum, line) => sum + line.minor, 0)]).toEqual([
            day,
            await ledger(a, day),
          ]);
        }
        expect(await problemsOf(a)).toEqual([]);
      }),
      { numRuns: FULL ? 60 : 4 },
    );
    expect((await accountLines(b.read, dayAfter(FIRST, 400))).lines).toEqual([]);
  });
});

async function orRefused(run: () => Promise<unknown>): Promise<void> {
  try {
    await run();
  } catch (cause) {
    // Many acts are not possible as things stand; what is refused leaves everything as it was.
    if (!(cause instanceof Refusal)) throw cause;
  }
}

async function doIt(
  shop: ShopHandle,
  act: string,
  { jobId, share, paidOn }: { jobId: number; share: number; paidOn: string },
): Promise<unknown> {
  const money = { paidOn, ...transfer };
  const job = await shop.read.job.findUniqueOrThrow({
    where: { id: jobId },
    select: {
      revision: { select: { grossMinor: true } },
      invoices: { where: { kind: "invoice", state: "issued", takenBack: false } },
    },
  });
  const [live] = job.invoices;
  const part = Math.max(1, Math.floor((job.revision.grossMinor * share) / 200));
  if (act === "deposit") return recordDeposit(shop, { jobId, amountMinor: part, ...money });
  if (act === "issue") return issuedInvoice(shop, jobId);
  if (act === "refund") return recordRefund(shop, { jobId, amountMinor: part, ...money });
  if (act === "bounce") {
    const payment = await shop.read.payment.findFirst({
      where: { jobId, kind: { in: ["payment", "deposit"] }, method: "transfer" },
      orderBy: { id: share % 2 === 0 ? "asc" : "desc" },
    });
    return payment && recordBounced(shop, { paymentId: payment.id, ...money });
  }
  if (!live) return;
  const left = live.grossMinor - live.prepaidMinor - live.paidMinor;
  const of = { invoiceId: live.id, ...money };
  if (act === "pay") return recordPayment(shop, { ...of, amountMinor: part });
  if (act === "payAll") return recordPayment(shop, { ...of, amountMinor: left });
  if (act === "payOver") return recordPayment(shop, { ...of, amountMinor: left + part, keepRest: true });
  if (act === "fromBalance") return payFromBalance(shop, { invoiceId: live.id });
  if (act === "writeOff") return recordWriteOff(shop, { ...of, amountMinor: Math.min(part, left) });
  if (act === "dueAgain") return takeWriteOffBack(shop, of);
  if (act === "credit") return creditInvoice(shop, { id: live.id, reason: "All of it" });
  return creditPart(shop, {
    id: live.id,
    version: live.version,
    reason: "Some of it",
    ask: { wholeMinor: part },
    fates: {},
    corrected: false,
  });
}
