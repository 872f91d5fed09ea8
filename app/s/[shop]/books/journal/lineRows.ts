import type { TableRow } from "@/app/_ui/tableTypes";
import type { BookedEntry } from "@/lib/domain/ledger/book";
import type { EntrySource } from "@/lib/domain/ledger/events";

/** Where an entry opens. */
const openAt = (slug: string, { noun, id }: EntrySource): string =>
  ({
    invoice: `/s/${slug}/invoices/${id}`,
    job: `/s/${slug}/jobs/${id}`,
    stock: `/s/${slug}/stock`,
    endOfDay: id === 0 ? `/s/${slug}/books/day` : `/s/${slug}/books/day/${id}`,
  })[noun];

/** An entry as rows of a table, one for each line: the first one names it. */
export const lineRows = (entry: BookedEntry, slug: string): TableRow[] =>
  entry.lines.map(({ account, minor }, at) => ({
    id: `${entry.key} ${at}`,
    ...(at === 0
      ? {
          href: openAt(slug, entry.source),
          entry: { text: entry.name, sub: entry.text },
          day: entry.day,
        }
      : {}),
    account: `${account.code} ${account.name}`,
    ...(minor < 0 ? { credit: 0 - minor } : { debit: minor }),
  }));
