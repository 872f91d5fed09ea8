"use client";
import { useState, useSyncExternalStore } from "react";
import { DataTable, type DataTableProps } from "./DataTable";
import { liveModule } from "./liveModule";
import type { Ordered } from "./Ordering";

const ORDERING = liveModule(() => import("./Ordering"));

/**
 * A list that stands whole on its page: its heads order it where it stands, without asking the server. What orders it is fetched as
 * the first head is pressed.
 */
export function OrderedTable(props: Omit<DataTableProps, "path" | "query" | "order">) {
  const { columns, rows, locale } = props;
  const live = useSyncExternalStore(ORDERING.subscribe, ORDERING.now, () => undefined);
  const [pressed, setPressed] = useState<readonly string[]>([]);
  const [ordered, setOrdered] = useState<Ordered>({ rows, by: undefined, descends: false });
  return (
    <>
      {live && <live.Ordering {...{ columns, rows, locale, pressed }} tell={setOrdered} />}
      <DataTable
        {...props}
        columns={columns.map((column) => ({ ...column, sortable: true }))}
        rows={ordered.by === undefined ? rows : ordered.rows}
        order={{
          by: ordered.by,
          descends: ordered.descends,
          change: (key) => {
            ORDERING.ask();
            setPressed((before) => [...before, key]);
          },
        }}
      />
    </>
  );
}
