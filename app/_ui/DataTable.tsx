"use client";
import {
  type ColumnDef,
  rowSortingFeature,
  type SortingState,
  tableFeatures,
  useTable,
} from "@tanstack/react-table";
import { useRouter } from "next/navigation";
import { type ReactNode, useMemo } from "react";
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
}

const features = tableFeatures({ rowSortingFeature });
const ENDS = new Set<string | undefined>(["money", "figure"]);

function sortingOf(sort: string | undefined): SortingState {
  return sort ? [{ id: sort.replace(/^-/, ""), desc: sort.startsWith("-") }] : [];
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
  ...rest
}: DataTableProps) {
  const router = useRouter();
  const defs = useMemo(
    () =>
      columns.map(
        (column): ColumnDef<typeof features, TableRow> => ({
          id: column.key,
          accessorFn: (row) => row[column.key],
          header: column.header,
          enableSorting: column.sortable === true && path !== undefined,
        }),
      ),
    [columns, path],
  );
  const sorting = useMemo(() => sortingOf(query.sort), [query.sort]);
  const table = useTable({
    features,
    columns: defs,
    data: rows as TableRow[],
    getRowId: (row) => row.id,
    manualSorting: true,
    state: { sorting },
  });
  const at = { path: path ?? "", query };
  const byKey = new Map(columns.map((column) => [column.key, column]));
  const alignOf = (key: string) => {
    const column = byKey.get(key);
    return (column?.align ?? (ENDS.has(column?.kind) ? "end" : "start")) === "end" ? "end" : undefined;
  };

  return (
    <div className="min-w-0">
      {path !== undefined && (rest.search || rest.filters) && (
        <TableFilters at={at} search={rest.search} filters={rest.filters ?? []} />
      )}
      {rows.length === 0 ? (
        (rest.empty ?? <Empty title={words.nothing} />)
      ) : (
        <table className="ledger">
          <caption className="sr-only">{caption}</caption>
          <thead>
            {table.getHeaderGroups().map((group) => (
              <tr key={group.id}>
                {group.headers.map((header) => {
                  const sorted = header.column.getIsSorted();
                  const name = byKey.get(header.column.id)?.header;
                  return (
                    <th
                      key={header.id}
                      scope="col"
                      data-align={alignOf(header.column.id)}
                      aria-sort={sorted ? (sorted === "desc" ? "descending" : "ascending") : undefined}
                    >
                      {header.column.getCanSort() ? (
                        <Link
                          href={sortHref(at, header.column.id)}
                          scroll={false}
                          className="inline-flex min-h-6 items-center gap-1 no-underline hover:underline pointer-coarse:min-h-12"
                        >
                          {name}
                          <span aria-hidden="true">{sorted ? (sorted === "desc" ? "↓" : "↑") : "↕"}</span>
                        </Link>
                      ) : (
                        name
                      )}
                    </th>
                  );
                })}
              </tr>
            ))}
          </thead>
          <tbody onKeyDown={moveBetweenRows} onClick={opener(router.push)}>
            {table.getRowModel().rows.map((row) => (
              <tr key={row.id} data-opens={row.original.href ? "" : undefined}>
                {columns.map((column, at) => {
                  const value = row.original[column.key];
                  // Cells are plain text and functions, not components: a list is mostly cells, and each component costs.
                  const shown = cellText(column, value, locale, zone);
                  return (
                    <td
                      key={column.key}
                      data-name={column.header}
                      data-align={alignOf(column.key)}
                      data-figure={ENDS.has(column.kind) || typeof value === "number" ? "" : undefined}
                      data-first={at === 0 ? "" : undefined}
                      data-empty={shown === null ? "" : undefined}
                    >
                      {at === 0 && row.original.href ? (
                        <a href={row.original.href} data-row-link className="row-link">
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
