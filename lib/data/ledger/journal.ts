import type { ShopHandle } from "@/lib/db/shop";
import { type BookedEntry, booker } from "@/lib/domain/ledger/book";
import { byPlace, type Place, placeOf } from "@/lib/domain/ledger/events";
import { poster } from "@/lib/domain/ledger/post";
import {
  type CustomerRow,
  type LedgerRange,
  type TrialRow,
  trial,
  yearFrom,
} from "@/lib/domain/ledger/trial";
import { broughtBefore } from "./brought";
import { type Book, readBook } from "./chart";
import { eventsWithBefore, ledgerEvents } from "./events";

/** What the journal of a range comes to. */
export interface JournalSums {
  readonly book: Book;
  /** The range as it is booked: not before the books began. */
  readonly range: LedgerRange;
  readonly rows: readonly TrialRow[];
  readonly entries: number;
  readonly debitMinor: number;
}

/** The same with what stands between the shop and each customer. */
export interface JournalByCustomer extends JournalSums {
  readonly customers: readonly CustomerRow[];
}

/** Earlier than any day of a shop. */
const EVER = "1000-01-01";

/**
 * The journal of a range, entry by entry in the order of days, derived from documents, payments and stock as they stand; at the end
 * what it comes to by account and by customer. Everything before the range is posted too, for the customers' openings, and not handed
 * out: for files that need those. Pages ask `rangeEntries` and `journalSums`.
 */
export async function* journalEntries(
  shop: ShopHandle,
  asked: LedgerRange,
): AsyncGenerator<BookedEntry, JournalByCustomer, undefined> {
  const book = await readBook(shop);
  const { chart, beginning, stockToo } = book;
  const sums = trial(chart, beginning, asked);
  const [post, onAccounts] = [poster(), booker(chart)];
  const detailFrom = yearFrom(sums.from, beginning.yearMonth);
  let entries = 0;
  for await (const event of ledgerEvents(shop, { from: EVER, to: asked.to, detailFrom, stockToo })) {
    const posted = post(event);
    if (posted.lines.length === 0) continue;
    const entry = onAccounts(posted);
    if (!sums.add(entry)) continue;
    entries += 1;
    yield entry;
  }
  return { book, ...cameTo(sums, entries), customers: sums.customers() };
}

function cameTo(sums: ReturnType<typeof trial>, entries: number) {
  const rows = sums.rows();
  return {
    range: { from: sums.from, to: sums.to },
    rows,
    entries,
    debitMinor: rows.reduce((sum, row) => sum + row.debitMinor, 0),
  };
}

/** The entries of a range in their order, each with its place: of the days before, only what it stands on is read. */
async function* rangeEntries(
  shop: ShopHandle,
  { chart, beginning, stockToo }: Book,
  asked: LedgerRange,
): AsyncGenerator<{ readonly entry: BookedEntry; readonly place: Place }, void, undefined> {
  const { startsOn } = beginning;
  const from = startsOn !== null && startsOn > asked.from ? startsOn : asked.from;
  const [post, onAccounts] = [poster(), booker(chart)];
  for await (const { event, before } of eventsWithBefore(shop, {
    from,
    to: asked.to,
    detailFrom: from,
    stockToo,
  })) {
    const posted = post(event);
    if (!before && posted.lines.length > 0) yield { entry: onAccounts(posted), place: placeOf(event) };
  }
}

/** All entries of a range, for a file. */
export async function* everyEntry(shop: ShopHandle, asked: LedgerRange): AsyncGenerator<BookedEntry> {
  for await (const { entry } of rangeEntries(shop, await readBook(shop), asked)) yield entry;
}

/**
 * What the journal of a range comes to by account. The years before the one that the range begins in are added up by the database; that
 * year's entries are posted.
 */
export async function journalSums(shop: ShopHandle, asked: LedgerRange): Promise<JournalSums> {
  const book = await readBook(shop);
  const { chart, beginning, stockToo } = book;
  const sums = trial(chart, beginning, asked);
  const year = yearFrom(sums.from, beginning.yearMonth);
  const { startsOn } = beginning;
  if (startsOn === null || startsOn < year) {
    for (const [use, minor] of await broughtBefore(shop, year, stockToo)) sums.brought(use, minor);
    if (startsOn !== null)
      for (const [use, minor] of await broughtBefore(shop, startsOn, stockToo)) sums.brought(use, 0 - minor);
  }
  let entries = 0;
  for await (const { entry } of rangeEntries(shop, book, { from: year, to: asked.to }))
    if (sums.add(entry)) entries += 1;
  return { book, ...cameTo(sums, entries) };
}

/** So many entries stand on a page. */
const ON_PAGE = 40;

export interface JournalPage {
  readonly book: Book;
  readonly range: LedgerRange;
  /** How many entries the whole range has, and what its debits come to. */
  readonly entries: number;
  readonly debitMinor: number;
  readonly rows: readonly BookedEntry[];
  /** How many entries of the range come before the first row. */
  readonly skipped: number;
  /** The place of the last row where more follow, else null. */
  readonly next: Place | null;
}

/** A page of a range's journal: the entries after a place, and what the whole range comes to. */
export async function journalPage(
  shop: ShopHandle,
  asked: LedgerRange,
  after?: Place | undefined,
): Promise<JournalPage> {
  const book = await readBook(shop);
  const { startsOn } = book.beginning;
  const from = startsOn !== null && startsOn > asked.from ? startsOn : asked.from;
  const rows: BookedEntry[] = [];
  let [entries, debitMinor, skipped]: [number, number, number] = [0, 0, 0];
  let last: Place | null = null;
  for await (const { entry, place } of rangeEntries(shop, book, asked)) {
    entries += 1;
    for (const { minor } of entry.lines) debitMinor += Math.max(0, minor);
    if (after && byPlace(place, after) <= 0) skipped += 1;
    else if (rows.length < ON_PAGE) {
      rows.push(entry);
      last = place;
    }
  }
  const next = skipped + rows.length < entries ? last : null;
  return { book, range: { from, to: asked.to }, entries, debitMinor, rows, skipped, next };
}
