import { DataTable } from "@/app/_ui/DataTable";
import type { TableColumn } from "@/app/_ui/tableTypes";
import type { OpenDay } from "@/lib/data/endOfDay/open";
import { KIND_NAMES } from "@/lib/schemas/invoices";
import { METHOD_WORDS, PAYMENT_WORDS } from "@/lib/schemas/paymentWords";

type Row = OpenDay["money"][number];

const COLUMNS: readonly TableColumn[] = [
  { key: "of", header: "Of" },
  { key: "at", header: "Recorded", kind: "instant" },
  { key: "kind", header: "What" },
  { key: "method", header: "How" },
  { key: "amount", header: "Amount", kind: "money" },
];

/** Money in the order it was recorded, each row opening to what it belongs to. */
export function MoneyRows({
  caption,
  rows,
  slug,
  currency,
  locale,
  zone,
}: {
  caption: string;
  rows: readonly Row[];
  slug: string;
  currency: string;
  locale: string;
  zone: string;
}) {
  return (
    <DataTable
      caption={caption}
      columns={COLUMNS}
      locale={locale}
      zone={zone}
      rows={rows.map((row) => ({
        id: String(row.id),
        href: hrefOf(row, `/s/${slug}`),
        of: nameOf(row),
        at: row.at.toISOString(),
        kind: row.overCounter && row.kind === "refund" ? "returned" : PAYMENT_WORDS[row.kind],
        method: METHOD_WORDS[row.method as keyof typeof METHOD_WORDS] ?? row.method,
        amount: { minor: row.movedMinor, currency },
      }))}
      empty={<p className="text-soft">None.</p>}
    />
  );
}

const nameOf = ({ document, job }: Row): string =>
  document ? `${KIND_NAMES[document.kind]} ${document.written}` : job ? `Job ${job}` : "";

function hrefOf({ documentId, jobId }: Row, base: string): string | undefined {
  if (documentId !== null) return `${base}/invoices/${documentId}`;
  return jobId === null ? undefined : `${base}/jobs/${jobId}`;
}
