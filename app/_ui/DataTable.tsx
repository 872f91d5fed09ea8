"use client";
import { useRouter } from "next/navigation";
import type { CSSProperties, ReactNode } from "react";
import { cellText } from "./cellText";
import { Empty } from "./Empty";
import { Link } from "./Link";
import { moveBetweenRows, opener } from "./rowKeys";
import { TableFilters } from "./TableFilters";
import { TablePages } from "./TablePages";
import { sortHref } from "./tableHref";
import type { TableColumn, TableFilter, TableRow } from "./tableTypes";
import { words } from "./words";

export interface DataTableProps {
  /** What the table lists, for screen readers. */
  caption: string;
  columns: readonly TableColumn[];
  rows: readonly TableRow[];
  locale: string;
  /** The shop's IANA zone, for instants. */
  zone?: string | undefined;
  /** The list's own path, and its search parameters now: sort, after, before, q and the filters. Without a path nothing can be ordered. */
  path?: string | undefined;
  query?: Readonly<Record<string, string | undefined>> | undefined;
  search?: string | undefined;
  filters?: readonly TableFilter[] | undefined;
  next?: string | null | undefined;
  previous?: string | null | undefined;
  /** Shown instead of rows when there are none. */
  empty?: ReactNode;
  /** Where its heads order the rows without an address (OrderedTable). */
  order?: { by: string | undefined; descends: boolean; change(key: string): void } | undefined;
}

const ENDS = new Set<string | undefined>(["money", "figure"]);

/** Says once what every cell of a column would say: the columns' names, which stand at the end, which are in figures. */
function saidOnce(columns: readonly TableColumn[]) {
  const numbered = columns.map((column, at) => ({ column, place: at + 1 }));
  const places = (of: (column: TableColumn) => boolean) =>
    numbered
      .filter(({ column }) => of(column))
      .map(({ place }) => place)
      .join(" ");
  return {
    "data-ends": places(({ align, kind }) => (align ?? (ENDS.has(kind) ? "end" : "start")) === "end"),
    "data-figures": places(({ kind }) => ENDS.has(kind)),
    style: Object.fromEntries(
      numbered.slice(1).map(({ column, place }) => [`--name-${place}`, JSON.stringify(column.header)]),
    ) as CSSProperties,
  };
}

/** The one table: ordered, narrowed and paged by its address; arrow keys move between rows and Enter opens; blocks on a phone. */
export function DataTable({
  caption,
  columns,
  rows,
  locale,
  zone = "UTC",
  path,
  query = {},
  order,
  ...rest
}: DataTableProps) {
  const router = useRouter();
  const at = { path: path ?? "", query };
  const sorted = order ? order.by : query.sort?.replace(/^-/, "");
  const descends = order?.descends ?? query.sort?.startsWith("-") ?? false;

  return (
    <div className="min-w-0">
      {path !== undefined && (rest.search || rest.filters) && (
        <TableFilters at={at} search={rest.search} filters={rest.filters ?? []} />
      )}
      {rows.length === 0 ? (
        (rest.empty ?? <Empty title={words.nothing} />)
      ) : (
        <table className="ledger" {...saidOnce(columns)}>
          <caption className="sr-only">{caption}</caption>
          <thead>
            <tr>
              {columns.map(({ key, header, sortable }) => (
                <th
                  key={key}
                  scope="col"
                  aria-sort={key === sorted ? (descends ? "descending" : "ascending") : undefined}
                >
                  {sortable && order ? (
                    <button type="button" className="sorts" onClick={() => order.change(key)}>
                      {header}
                      <Way ordered={key === sorted} descends={descends} />
                    </button>
                  ) : sortable && path !== undefined ? (
                    <Link href={sortHref(at, key)} scroll={false} className="sorts">
                      {header}
                      <Way ordered={key === sorted} descends={descends} />
                    </Link>
                  ) : (
                    header
                  )}
                </th>
              ))}
            </tr>
          </thead>
          <tbody onKeyDown={moveBetweenRows} onClick={opener(router.push)}>
            {rows.map((row) => (
              <tr key={row.id} data-opens={row.href ? "" : undefined}>
                {columns.map((column, at) => {
                  const value = row[column.key];
                  // Cells are plain text and functions, not components: a list is mostly cells, and each component costs.
                  const shown = cellText(column, value, locale, zone);
                  return (
                    <td
                      key={column.key}
                      data-figure={typeof value === "number" && !ENDS.has(column.kind) ? "" : undefined}
                    >
                      {at === 0 && row.href ? (
                        <a href={row.href} className="row-link">
                          {shown}
                        </a>
                      ) : (
                        shown
                      )}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <TablePages at={at} next={rest.next} previous={rest.previous} />
    </div>
  );
}

function Way({ ordered, descends }: { ordered: boolean; descends: boolean }) {
  return <span aria-hidden="true">{ordered ? (descends ? "↓" : "↑") : "↕"}</span>;
}
