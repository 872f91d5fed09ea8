import { describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { paidIn } from "@/lib/data/figures/daysToPay";
import { packageJobsIn } from "@/lib/data/figures/packageJobs";
import { eachRevenueDocument, revenueDocuments, revenueIn } from "@/lib/data/figures/revenue";
import { soldHoursIn } from "@/lib/data/figures/soldHours";
import { stockIn } from "@/lib/data/figures/stockFigures";
import { creditInvoice } from "@/lib/data/invoices/credit";
import { creditPart } from "@/lib/data/invoices/creditPart";
import { recordPayment } from "@/lib/data/payments/record";
import type { ShopHandle } from "@/lib/db/shop";
import { SHARES } from "@/lib/domain/invoices/shares";
import { invoiceNow, issuedInvoice, nameShop, readyJob } from "../support/invoices";
import { as, twoShops } from "../support/shops";

const OCTOBER = { from: "2026-10-01", to: "2026-10-31" };
const NOVEMBER = { from: "2026-11-01", to: "2026-11-30" };
const BOTH = { from: OCTOBER.from, to: NOVEMBER.to };

const at = (shop: ShopHandle, instant: string) => as(shop, { now: new Date(instant) });
const sum = (some: readonly { netMinor: number }[]) => some.reduce((total, one) => total + one.netMinor, 0);

/** One shop with three invoices around the turn of a month on its clock, one of them credited later; another shop beside it. */
async function history() {
  const { a, b } = await twoShops();
  await nameShop(a);
  const { zone } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 } });
  // Half an hour before and after midnight of 1 November in Sydney, which is 13:00 in UTC (IANA, summer time UTC+11).
  expect(zone).toBe("Australia/Sydney");
  const [october, november, credited] = [
    at(a, "2026-10-31T12:30:00Z"),
    at(a, "2026-10-31T13:30:00Z"),
    at(a, "2026-10-31T15:00:00Z"),
  ];
  const jobs = [];
  let ready: Parameters<typeof readyJob>[1];
  for (const shop of [october, november, credited]) {
    const made = await readyJob(shop, ready);
    ready = made.ready;
    const { jobId } = made;
    jobs.push({ jobId, invoiceId: await issuedInvoice(shop, jobId) });
  }
  return { a, b, jobs };
}

describe("revenue", () => {
  it("belongs to the month of the shop's own clock, adds up from its documents, and loses what is credited", async () => {
    const { a, b, jobs } = await history();
    const nets = await Promise.all(jobs.map(async (one) => (await invoiceNow(a, one.invoiceId)).netMinor));
    const [first = 0, second = 0, third = 0] = nets;
    expect(first).toBeGreaterThan(0);
    expect((await revenueIn(a, OCTOBER)).netMinor).toBe(first);
    expect((await revenueIn(a, NOVEMBER)).netMinor).toBe(second + third);

    const later = at(a, "2026-11-12T01:00:00Z");
    await creditInvoice(later, { id: jobs[2]?.invoiceId ?? 0, reason: "Invoiced twice." });
    const { id, version } = await invoiceNow(a, jobs[1]?.invoiceId ?? 0);
    await creditPart(later, {
      id,
      version,
      reason: "Took less.",
      ask: { wholeMinor: 1_234 },
      fates: {},
      corrected: false,
    });
    const credits = await a.read.invoice.findMany({ where: { kind: "creditNote" }, orderBy: { id: "asc" } });
    expect(credits[0]?.netMinor).toBe(-third);
    const november = await revenueIn(a, NOVEMBER);
    expect(november.netMinor).toBe(second + third + sum(credits));
    expect(sum(november.kinds)).toBe(november.netMinor);
    expect(november.months).toMatchObject([{ month: "2026-11", netMinor: november.netMinor }]);

    for (const kind of [undefined, ...SHARES]) {
      const figure = await revenueIn(a, BOTH);
      const wanted = kind ? figure.kinds.find((one) => one.kind === kind)?.netMinor : figure.netMinor;
      const list = await revenueDocuments(a, { range: BOTH, kind });
      expect(sum(list.rows)).toBe(wanted);
      expect(list.netMinor).toBe(wanted);
      let told = 0;
      for await (const row of eachRevenueDocument(a, { range: BOTH, kind })) told += row.netMinor;
      expect(told).toBe(wanted);
    }
    expect(await problemsOf(a)).toEqual([]);
    expect((await revenueIn(b, BOTH)).netMinor).toBe(0);
    expect((await revenueDocuments(b, { range: BOTH })).rows).toEqual([]);
    await expect(a.write((tx) => tx.documentShare.deleteMany({}))).rejects.toThrow(/only grows/);
    await expect(a.write((tx) => tx.documentShare.updateMany({ data: { netMinor: 1 } }))).rejects.toThrow(
      /only grows/,
    );

    const sold = await soldHoursIn(later, BOTH, "Australia/Sydney");
    const labour = await revenueDocuments(a, { range: BOTH, kind: "labour" });
    expect(sold.soldMinutes).toBe(labour.minutes);
    expect(sold.soldMinutes).toBeGreaterThan(0);
    expect(sold.months.map((one) => one.month)).toEqual(["2026-10", "2026-11"]);
    expect(sold.presentMinutes).toBeGreaterThan(0);

    const due = jobs[0]?.invoiceId ?? 0;
    const { grossMinor } = await invoiceNow(a, due);
    const half = Math.floor(grossMinor / 2);
    for (const [amountMinor, instant, paidOn] of [
      [half, "2026-11-10T01:00:00Z", "2026-11-10"],
      [grossMinor - half, "2026-11-20T01:00:00Z", "2026-11-20"],
    ] as const)
      await recordPayment(at(a, instant), { invoiceId: due, amountMinor, method: "transfer", paidOn });
    // Issued on 31 October: 10 days for one half, 20 for the other.
    const paid = await paidIn(a, NOVEMBER);
    expect(paid.rows.map((row) => row.days)).toEqual([10, 20]);
    expect(paid.amountMinor).toBe(grossMinor);
    expect(paid.days).toBeCloseTo((half * 10 + (grossMinor - half) * 20) / grossMinor, 9);
    expect((await paidIn(a, OCTOBER)).days).toBeNull();
    expect((await paidIn(b, BOTH)).rows).toEqual([]);

    const stock = await stockIn(at(a, "2026-11-20T01:00:00Z"), BOTH, "Australia/Sydney");
    const parts = await a.read.part.findMany({ where: { onHandMilli: { gt: 0 } }, orderBy: { id: "asc" } });
    expect(parts.length).toBeGreaterThan(0);
    expect(stock.rows.filter((row) => row.onHandMilli > 0).map((row) => row.id)).toEqual(
      parts.map((part) => part.id),
    );
    expect(stock.rows.reduce((total, row) => total + row.valueMinor, 0)).toBe(stock.valueMinor);
    expect(stock.deadMinor).toBe(0);
    const aYearLater = await stockIn(at(a, "2028-03-01T01:00:00Z"), BOTH, "Australia/Sydney");
    expect(aYearLater.deadMinor).toBe(aYearLater.valueMinor);
    expect((await stockIn(b, BOTH, "Australia/Sydney")).rows).toEqual([]);

    const { rows, packages } = await packageJobsIn(a, BOTH);
    expect(rows).toHaveLength(3);
    expect(sum(rows)).toBe((await revenueIn(a, BOTH)).netMinor);
    expect(sum(packages)).toBe(sum(rows));
    expect(packages.reduce((count, one) => count + one.jobs, 0)).toBe(3);
    expect((await packageJobsIn(b, BOTH)).rows).toEqual([]);
  });
});
