import fc from "fast-check";
import { beforeAll, describe, expect, it } from "vitest";
import { problemsOf } from "@/lib/data/books/invariants";
import { storedInvoice } from "@/lib/data/documents/invoice";
import { recordPayment } from "@/lib/data/payments/record";
import type { ShownEntry } from "@/lib/data/taxReport/byMoney";
import { depositEntries } from "@/lib/data/taxReport/deposits";
import { type Basis, reportEntries, type TaxQuery, taxEntries } from "@/lib/data/taxReport/entries";
import { plainCells } from "@/lib/data/taxReport/plain";
import { cellEntries, type TaxReport, taxReport } from "@/lib/data/taxReport/summary";
import type { ShopHandle } from "@/lib/db/shop";
import { taxCsv } from "@/lib/documents/tax";
import { outstanding } from "@/lib/domain/invoices/state";
import { dayAfter } from "@/lib/domain/schedule/localTime";
import { type Days, periodBeside, periodOf } from "@/lib/domain/taxReport/periods";
import { summaryOf, type TaxCell } from "@/lib/domain/taxReport/summary";
import { nameShop } from "../support/invoices";
import { as, twoShops } from "../support/shops";
import { FULL } from "../support/size";
import { yearOf } from "../support/yearOf";

const YEAR = { from: "2027-01-01", to: "2027-12-31" };
let a: ShopHandle;
let b: ShopHandle;

const query = (basis: Basis, days = YEAR, depositsReceived = false): TaxQuery => ({
  ...days,
  basis,
  depositsReceived,
});

/** What the documents of a shop print, by category and rate: the sum that everything is held against. */
async function printed(shop: ShopHandle): Promise<TaxCell[]> {
  const rows = await shop.read.invoice.findMany({
    where: { state: "issued", issuedOn: { gte: YEAR.from, lte: YEAR.to } },
    select: { frozen: true },
  });
  return rows.flatMap((row) =>
    storedInvoice(row.frozen).taxes.map(({ category, rateBp, taxableMinor, taxMinor }) => ({
      category,
      rateBp,
      netMinor: taxableMinor,
      taxMinor,
      count: 1,
    })),
  );
}

const amounts = ({ cells }: { cells: readonly TaxCell[] }) =>
  cells.filter((cell) => cell.netMinor !== 0 || cell.taxMinor !== 0).map(({ count: _, ...cell }) => cell);

beforeAll(async () => {
  ({ a, b } = await twoShops());
  await nameShop(a);
  await nameShop(b, { pricesIncludeTax: false });
  await yearOf(a, 20_270_101);
  await yearOf(b, 7);
}, 120_000);

const both = (run: (shop: ShopHandle) => Promise<void>) => async () => {
  for (const shop of [a, b]) await run(shop);
};

describe("a tax summary by what was issued", () => {
  it(
    "is the sum of the documents, to the cent, in more than one category",
    both(async (shop) => {
      const { main } = await taxReport(shop.read, query("issued"));
      expect(main).toEqual(summaryOf(await printed(shop)));
      expect(main.cells.map((cell) => cell.category)).toEqual(["E", "S"]);
      expect(main.grossMinor).toBeGreaterThan(0);
      expect(await problemsOf(shop)).toEqual([]);
    }),
  );

  it(
    "opens every figure to documents that add up to it, as the file does",
    both(async (shop) => {
      for (const basis of ["issued", "paid"] as const) {
        const asked = query(basis, YEAR, true);
        const report = await taxReport(shop.read, asked);
        for (const part of ["main", "deposits", "off"] as const)
          for (const { count, category, rateBp, netMinor, taxMinor } of report[part]?.cells ?? []) {
            const cell = await cellEntries(shop.read, asked, { part, category, rateBp, page: 1 });
            expect(cell.sum).toEqual({ count, netMinor, taxMinor });
            expect(cell.rows.reduce((sum, row) => sum + row.taxMinor, 0)).toBe(taxMinor);
            expect(cell.rows.every((row) => row.on >= YEAR.from && row.on <= YEAR.to)).toBe(true);
          }
        const rows: string[] = [];
        for await (const text of taxCsv(reportEntries(shop.read, asked), { basis, currency: "AUD" }))
          rows.push(text);
        const [head, ...body] = rows.join("").trim().split("\r\n");
        expect(head).toContain("part,day,kind,document");
        const taxed = body.filter((row) => row.startsWith("main") || row.startsWith("deposits"));
        const column = head?.split(",").indexOf("tax") ?? -1;
        // No customer's name here has a comma in it, so that cells can be told apart by it.
        const sum = taxed.reduce(
          (total, row) =>
            total + Math.round(Number(row.split(",").at(column - (head?.split(",").length ?? 0))) * 100),
          0,
        );
        expect(sum).toBe(report.all.taxMinor);
      }
    }),
  );
});

describe("periods of a tax summary", () => {
  it(
    "add up to the year, whatever their length, on either basis",
    both(async (shop) => {
      for (const basis of ["issued", "paid"] as const) {
        const year = await taxReport(shop.read, query(basis, YEAR, true));
        for (const months of [1, 2, 3] as const) {
          const found: TaxReport[] = [];
          for (
            let days = periodOf(YEAR.from, months);
            days.from <= YEAR.to;
            days = periodBeside(days, months, 1)
          )
            found.push(await taxReport(shop.read, query(basis, days, true)));
          for (const part of ["main", "deposits", "off"] as const)
            expect(summaryOf(found.flatMap((one) => one[part]?.cells ?? [])), `${basis} ${part}`).toEqual(
              summaryOf(year[part]?.cells ?? []),
            );
        }
      }
    }),
  );
});

describe("a tax summary by what was paid", () => {
  it(
    "adds up in the database to what its entries come to one by one, in any days",
    both(async (shop) => {
      expect(await plainCells(shop.read, YEAR)).not.toEqual([]);
      const sums = async (entries: AsyncIterable<ShownEntry>, { from, to }: Days) => {
        const cells: TaxCell[] = [];
        for await (const { on, category, rateBp, netMinor, taxMinor } of entries)
          if (on >= from && on <= to) cells.push({ category, rateBp, netMinor, taxMinor, count: 1 });
        return summaryOf(cells);
      };
      const jobs = (await shop.read.job.findMany({ select: { id: true } })).map((row) => row.id);
      const flat = async function* (all: AsyncIterable<readonly ShownEntry[]>) {
        for await (const some of all) yield* some;
      };
      const day = fc.integer({ min: 0, max: 364 }).map((days) => dayAfter(YEAR.from, days));
      await fc.assert(
        fc.asyncProperty(day, day, async (one, two) => {
          const days = one < two ? { from: one, to: two } : { from: two, to: one };
          const asked = query("paid", days, true);
          const { main, deposits } = await taxReport(shop.read, asked);
          expect(main).toEqual(await sums(taxEntries(shop.read, asked, "main"), days));
          // Every job asked, also those that cannot have held anything.
          expect(deposits).toEqual(await sums(flat(depositEntries(shop.read, jobs)), days));
        }),
        { numRuns: FULL ? 100 : 12 },
      );
    }),
    60_000,
  );

  it(
    "is, once everything is paid or written off, the one by what was issued",
    both(async (shop) => {
      const before = await taxReport(shop.read, query("paid"));
      expect(amounts(before.main)).not.toEqual(amounts((await taxReport(shop.read, query("issued"))).main));
      const last = as(shop, { now: new Date("2027-12-30T02:00:00Z") });
      const open = await shop.read.invoice.findMany({
        where: { kind: "invoice", state: "issued", takenBack: false, saleId: null },
      });
      for (const row of open) {
        const left = outstanding({ ...row, credited: false });
        if (left > 0)
          await recordPayment(last, {
            invoiceId: row.id,
            amountMinor: left,
            method: "transfer",
            paidOn: "2027-12-30",
          });
      }
      const paid = await taxReport(shop.read, query("paid"));
      const issued = await taxReport(shop.read, query("issued"));
      expect(issued.off?.grossMinor).toBeGreaterThan(0);
      expect(amounts(summaryOf([...paid.main.cells, ...(issued.off?.cells ?? [])]))).toEqual(
        amounts(issued.main),
      );
      expect(paid.off).toBeNull();
    }),
  );

  it(
    "counts deposits as they come where the shop's rule says so, and takes them out again with their invoice",
    both(async (shop) => {
      const { deposits } = await taxReport(shop.read, query("issued", YEAR, true));
      const held = await shop.read.payment.findMany({ where: { kind: "deposit" } });
      expect(held).toHaveLength(3);
      const came = { from: YEAR.from, to: held.map((row) => row.paidOn).sort()[0] ?? "" };
      const first = await taxReport(shop.read, query("issued", came, true));
      expect(first.deposits?.grossMinor).toBe(held.find((row) => row.paidOn === came.to)?.amountMinor);
      expect(first.all.taxMinor).toBe(first.main.taxMinor + (first.deposits?.taxMinor ?? 0));
      // What is left of the taken back invoice's money waits for another one: it is all that is still before its invoice.
      const waiting = await shop.read.job.findMany({
        where: { invoices: { some: { kind: "invoice", takenBack: true } } },
        include: { payments: true },
      });
      const left = waiting
        .flatMap((job) => job.payments)
        .reduce((sum, row) => sum + (row.kind === "refund" ? -row.amountMinor : row.amountMinor), 0);
      expect(deposits?.grossMinor).toBe(left);
      expect((await taxReport(shop.read, query("issued"))).deposits).toBeNull();
    }),
  );
});

it("keeps a document's taxes by rate as it is issued, for good", async () => {
  await expect(a.write((tx) => tx.invoiceTax.deleteMany())).rejects.toThrow(/only grows/);
  await expect(a.write((tx) => tx.invoiceTax.updateMany({ data: { taxMinor: 0 } }))).rejects.toThrow(
    /only grows/,
  );
});
