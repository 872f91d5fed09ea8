import { DataTable } from "@/app/_ui/DataTable";
import type { TableColumn } from "@/app/_ui/tableTypes";
import type { listDays } from "@/lib/data/endOfDay/get";

const COLUMNS: readonly TableColumn[] = [
  { key: "day", header: "Day", kind: "date" },
  { key: "counted", header: "Counted", kind: "money" },
  { key: "difference", header: "Difference", kind: "money" },
  { key: "closed", header: "Closed", kind: "instant" },
];

/** Days that were closed, the newest first, each opening to its sheet and its payments. */
export function ClosedDays({
  list,
  path,
  after,
  currency,
  locale,
  zone,
}: {
  list: Awaited<ReturnType<typeof listDays>>;
  path: string;
  after: number | undefined;
  currency: string;
  locale: string;
  zone: string;
}) {
  return (
    <DataTable
      caption="Closed days"
      columns={COLUMNS}
      locale={locale}
      zone={zone}
      path={path}
      query={{ after: after?.toString() }}
      next={list.next?.toString() ?? null}
      previous={after === undefined ? null : ""}
      rows={list.rows.map((row) => ({
        id: String(row.id),
        href: `${path}/${row.id}`,
        day: row.day,
        counted: { minor: row.countedMinor, currency },
        difference: { minor: row.differenceMinor, currency },
        closed: row.closedAt.toISOString(),
      }))}
      empty={<p className="text-soft">None yet.</p>}
    />
  );
}
