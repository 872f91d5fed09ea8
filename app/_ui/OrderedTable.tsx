"use client";
import {
  type ColumnDef,
  createSortedRowModel,
  rowSortingFeature,
  type SortingState,
  tableFeatures,
  useTable,
} from "@tanstack/react-table";
import { useMemo, useState } from "react";
import { DataTable, type DataTableProps } from "./DataTable";
import { inOrder, orderValue } from "./orderValue";
import type { TableRow } from "./tableTypes";

const features = tableFeatures({ rowSortingFeature, sortedRowModel: createSortedRowModel() });

/** A list that stands whole on its page: its heads order it where it stands, without asking the server. */
export function OrderedTable(props: Omit<DataTableProps, "path" | "query" | "order">) {
  const { columns, rows, locale } = props;
  const [sorting, setSorting] = useState<SortingState>([]);
  const defs = useMemo(() => {
    const compare = inOrder(locale);
    return columns.map(
      (column): ColumnDef<typeof features, TableRow> => ({
        id: column.key,
        accessorFn: (row) => orderValue(row[column.key]),
        sortFn: (one, other, id) => compare(one.getValue(id), other.getValue(id)),
        sortUndefined: "last",
      }),
    );
  }, [columns, locale]);
  const table = useTable({
    features,
    columns: defs,
    data: rows as TableRow[],
    getRowId: (row) => row.id,
    state: { sorting },
    onSortingChange: setSorting,
  });
  return (
    <DataTable
      {...props}
      columns={columns.map((column) => ({ ...column, sortable: true }))}
      rows={table.getRowModel().rows.map((row) => row.original)}
      order={{
        by: sorting[0]?.id,
        descends: sorting[0]?.desc ?? false,
        change: (key) => table.getColumn(key)?.toggleSorting(),
      }}
    />
  );
}
