import type { ShopHandle } from "@/lib/db/shop";
import { type BookedEntry, booker } from "@/lib/domain/ledger/book";
import { poster } from "@/lib/domain/ledger/post";
import {
  type CustomerRow,
  type LedgerRange,
  type TrialRow,
  trial,
  yearFrom,
} from "@/lib/domain/ledger/trial";
import { type Book, readBook } from "./chart";
import { ledgerEvents } from "./events";

/** What the journal of a range comes to. */
export interface JournalSums {
  readonly book: Book;
  /** The range as it is booked: not before the books began. */
  readonly range: LedgerRange;
  readonly rows: readonly TrialRow[];
  readonly customers: readonly CustomerRow[];
  readonly entries: number;
  readonly debitMinor: number;
}

/**
 * The journal of a range, entry by entry in the order of days, derived from documents, payments and stock as they stand; at the end
 * what it comes to by account. Everything before the range is posted too, for the openings, and not handed out.
 */
export async function* journalEntries(
  shop: ShopHandle,
  asked: LedgerRange,
): AsyncGenerator<BookedEntry, JournalSums, undefined> {
  const book = await readBook(shop);
  const { chart, beginning, stockToo } = book;
  const sums = trial(chart, beginning, asked);
  const [post, onAccounts] = [poster(), booker(chart)];
  const detailFrom = yearFrom(sums.from, beginning.yearMonth);
  let entries = 0;
  for await (const event of ledgerEvents(shop, { to: asked.to, detailFrom, stockToo })) {
    const posted = post(event);
    if (posted.lines.length === 0) continue;
    const entry = onAccounts(posted);
    if (!sums.add(entry)) continue;
    entries += 1;
    yield entry;
  }
  const rows = sums.rows();
  return {
    book,
    range: { from: sums.from, to: sums.to },
    rows,
    customers: sums.customers(),
    entries,
    debitMinor: rows.reduce((sum, row) => sum + row.debitMinor, 0),
  };
}

/** What the journal of a range comes to, its entries left out. */
export async function journalSums(shop: ShopHandle, asked: LedgerRange): Promise<JournalSums> {
  const entries = journalEntries(shop, asked);
  for (;;) {
    const next = await entries.next();
    if (next.done) return next.value;
  }
}

/** So many entries stand on a page before it ends with a day. Judgement. */
const ON_PAGE = 150;

export interface JournalPage extends JournalSums {
  readonly days: readonly { readonly day: string; readonly entries: readonly BookedEntry[] }[];
  /** The first day that is not listed; null where all of the range is. */
  readonly next: string | null;
}

/** The journal of a range by day, and what it comes to: as many whole days as a page holds. */
export async function journalPage(shop: ShopHandle, asked: LedgerRange): Promise<JournalPage> {
  const days: { day: string; entries: BookedEntry[] }[] = [];
  let [listed, next]: [number, string | null] = [0, null];
  const entries = journalEntries(shop, asked);
  for (;;) {
    const one = await entries.next();
    if (one.done) return { ...one.value, days, next };
    if (next !== null) continue;
    const { day } = one.value;
    if (days.at(-1)?.day === day) days.at(-1)?.entries.push(one.value);
    else if (listed >= ON_PAGE) next = day;
    else days.push({ day, entries: [one.value] });
    listed += 1;
  }
}
