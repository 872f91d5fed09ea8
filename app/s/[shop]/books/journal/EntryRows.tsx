import type { ReactNode } from "react";
import { Link } from "@/app/_ui/Link";
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

/** The entries of a day, each line with its account. */
export function EntryRows({
  entries,
  slug,
  money,
}: {
  entries: readonly BookedEntry[];
  slug: string;
  money: (minor: number) => ReactNode;
}) {
  return (
    <table className="ledger">
      <caption className="sr-only">Entries of this day</caption>
      <thead>
        <tr>
          <th scope="col">Entry</th>
          <th scope="col">Account</th>
          <th scope="col" data-align="end">
            Debit
          </th>
          <th scope="col" data-align="end">
            Credit
          </th>
        </tr>
      </thead>
      <tbody>
        {entries.flatMap((entry) =>
          entry.lines.map((line, at) => (
            <tr
              key={`${entry.key} ${line.account.code} ${line.tax?.category} ${line.tax?.rateBp} ${line.minor}`}
            >
              <td data-first="" data-empty={at > 0 ? "" : undefined}>
                {at === 0 && (
                  <>
                    <Link
                      href={openAt(slug, entry.source)}
                      className="inline-flex min-h-6 items-center text-brass underline underline-offset-4 pointer-coarse:min-h-12"
                    >
                      {entry.name}
                    </Link>
                    <span className="block text-[14px] text-soft">{entry.text}</span>
                  </>
                )}
              </td>
              <td data-name="Account">
                <span className="font-mono">{line.account.code}</span> {line.account.name}
              </td>
              <td data-name="Debit" data-align="end" data-empty={line.minor < 0 ? "" : undefined}>
                {line.minor >= 0 && money(line.minor)}
              </td>
              <td data-name="Credit" data-align="end" data-empty={line.minor < 0 ? undefined : ""}>
                {line.minor < 0 && money(0 - line.minor)}
              </td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}
