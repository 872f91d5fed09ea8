"use client";
import {
  type ColumnDef,
  createSortedRowModel,
  rowSortingFeature,
  type SortingState,
  tableFeatures,
  useTable,
} from "@tanstack/react-table";
import { useEffect, useEffectEvent, useMemo, useRef, useState } from "react";
import { inOrder, orderValue } from "./orderValue";
import type { TableColumn, TableRow } from "./tableTypes";

const features = tableFeatures({ rowSortingFeature, sortedRowModel: createSortedRowModel() });

export interface Ordered {
  readonly rows: readonly TableRow[];
  readonly by: string | undefined;
  readonly descends: boolean;
}

interface OrderingProps {
  columns: readonly TableColumn[];
  rows: readonly TableRow[];
  locale: string;
  /** The heads that were pressed, in turn. */
  pressed: readonly string[];
  tell: (ordered: Ordered) => void;
}

/** Draws nothing: it tells how a list stands after the heads that were pressed. */
export function Ordering({ columns, rows, locale, pressed, tell }: OrderingProps): null {
  const [sorting, setSorting] = useState<SortingState>([]);
  const heard = useRef(0);
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
  const press = useEffectEvent((heads: readonly string[]) => {
    for (const key of heads.slice(heard.current)) table.getColumn(key)?.toggleSorting();
    heard.current = heads.length;
  });
  useEffect(() => press(pressed), [pressed]);
  const order = useEffectEvent(([first]: SortingState) =>
    tell({
      rows: table.getRowModel().rows.map((row) => row.original),
      by: first?.id,
      descends: first?.desc ?? false,
    }),
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: other rows stand in another order
  useEffect(() => order(sorting), [sorting, rows]);
  return null;
}
