import type { ShopReader } from "@/lib/db/shop";
import { type Days, monthsOf } from "@/lib/domain/taxReport/periods";
import { summaryOf, type TaxCell, type TaxSummary } from "@/lib/domain/taxReport/summary";
import { chunks } from "../common/chunks";
import type { ShownEntry } from "./byMoney";
import { type Part, paidEntries, type TaxQuery, taxEntries, touchedOnce } from "./entries";
import { plainCells, touchedBesides } from "./plain";
import { MONTHS } from "./touched";

/** The parts of a report, and what they come to together; a part that a basis or a regime does not have is null. */
export interface TaxReport {
  readonly main: TaxSummary;
  readonly deposits: TaxSummary | null;
  /** Written off: told apart, and no part of what is reported. */
  readonly off: TaxSummary | null;
  readonly all: TaxSummary;
}

/** The tax summary of a stretch of days. Documents are added up by the database, a month at a time; money in pieces. */
export async function taxReport(read: ShopReader, query: TaxQuery): Promise<TaxReport> {
  // Of the same days, both look at what something happened to.
  const touched = touchedOnce(read, query);
  const [main, deposits, off] = await Promise.all([
    partSummary(read, query, "main"),
    query.depositsReceived ? partSummary(read, query, "deposits", touched) : null,
    query.basis === "issued" ? partSummary(read, query, "off", touched) : null,
  ]);
  return { main, deposits, off, all: summaryOf([...main.cells, ...(deposits?.cells ?? [])]) };
}

async function partSummary(
  read: ShopReader,
  query: TaxQuery,
  part: Part,
  touched = touchedOnce(read, query),
): Promise<TaxSummary> {
  if (part !== "main") return summaryOf(await cellsOf(taxEntries(read, query, part, touched)));
  return query.basis === "issued" ? issuedSummary(read, query) : paidSummary(read, query);
}

async function issuedSummary(read: ShopReader, days: Days): Promise<TaxSummary> {
  const cells: TaxCell[] = [];
  for (const months of chunks(monthsOf(days), MONTHS))
    cells.push(...(await Promise.all(months.map((month) => issuedCells(read, month)))).flat());
  return summaryOf(cells);
}

async function issuedCells(read: ShopReader, { from, to }: Days): Promise<TaxCell[]> {
  const rows = await read.invoiceTax.groupBy({
    by: ["category", "rateBp"],
    where: { issuedOn: { gte: from, lte: to } },
    _sum: { netMinor: true, taxMinor: true },
    _count: { id: true },
  });
  return rows.map(({ category, rateBp, _sum, _count }) => ({
    category,
    rateBp,
    netMinor: _sum.netMinor ?? 0,
    taxMinor: _sum.taxMinor ?? 0,
    count: _count.id,
  }));
}

/** What counts by money: what was paid as a whole is added up by the database, a month at a time; the rest entry by entry. */
async function paidSummary(read: ShopReader, query: TaxQuery): Promise<TaxSummary> {
  const cells: TaxCell[] = [];
  const [sales, invoices] = [new Set<number>(), new Set<number>()];
  for (const days of monthsOf(query)) {
    const [plain, touched] = await Promise.all([plainCells(read, days), touchedBesides(read, days)]);
    cells.push(...plain);
    for (const id of touched.sales) sales.add(id);
    for (const id of touched.invoices) invoices.add(id);
  }
  return summaryOf([...cells, ...(await cellsOf(paidEntries(read, query, [...invoices], [...sales])))]);
}

/** Entries as cells, so many at a time that memory stays small. */
async function cellsOf(entries: AsyncIterable<ShownEntry>): Promise<readonly TaxCell[]> {
  let cells: readonly TaxCell[] = [];
  let some: TaxCell[] = [];
  for await (const { category, rateBp, netMinor, taxMinor } of entries) {
    some.push({ category, rateBp, netMinor, taxMinor, count: 1 });
    if (some.length < 500) continue;
    cells = summaryOf([...cells, ...some]).cells;
    some = [];
  }
  return [...cells, ...some];
}

const NOTHING = { count: 0, netMinor: 0, taxMinor: 0 };

/** So many lines of a cell stand on a page. */
const TAKE = 50;

/** The documents and money behind a cell, page by page. */
export async function cellEntries(
  read: ShopReader,
  query: TaxQuery,
  cell: { readonly part: Part; readonly category: string; readonly rateBp: number; readonly page: number },
) {
  const rows: ShownEntry[] = [];
  const before = (cell.page - 1) * TAKE;
  const of = (one: { readonly category: string; readonly rateBp: number }) =>
    one.category === cell.category && one.rateBp === cell.rateBp;
  const { count, netMinor, taxMinor } = (await partSummary(read, query, cell.part)).cells.find(of) ?? NOTHING;
  const sum = { count, netMinor, taxMinor };
  const shown = Math.max(0, Math.min(TAKE, count - before));
  let seen = 0;
  if (shown > 0)
    for await (const entry of taxEntries(read, query, cell.part)) {
      if (!of(entry)) continue;
      seen += 1;
      if (seen > before) rows.push(entry);
      if (rows.length === shown) break;
    }
  // Money is read by what it was paid for: on a page it stands by its day.
  rows.sort((one, two) => (one.on < two.on ? -1 : one.on > two.on ? 1 : 0));
  return { rows, more: sum.count > before + TAKE, sum };
}
