import { DataTable } from "@/app/_ui/DataTable";
import type { TableColumn } from "@/app/_ui/tableTypes";
import type { AccountLine } from "@/lib/data/chasing/accounts";
import { COLUMN_WORDS } from "@/lib/schemas/chasing";

const DOCUMENTS: readonly TableColumn[] = [
  { key: "document", header: "Document" },
  { key: "customer", header: "Customer" },
  { key: "issued", header: "Issued", kind: "date" },
  { key: "due", header: "Due", kind: "date" },
  { key: "past", header: "Days past due", kind: "figure" },
  { key: "column", header: "Column" },
  { key: "amount", header: "Amount", kind: "money" },
];

interface Props {
  slug: string;
  lines: readonly AccountLine[];
  currency: string;
  locale: string;
}

/** The documents behind a figure, each with where it is. */
export function Documents({ slug, lines, currency, locale }: Props) {
  return (
    <DataTable
      caption="Documents"
      columns={DOCUMENTS}
      locale={locale}
      rows={lines.map(({ of, customer, issuedOn, dueOn, daysPast, column, minor }) => ({
        id: `${of.noun}-${of.id}-${column}`,
        href: `/s/${slug}/${of.noun === "invoice" ? "invoices" : "jobs"}/${of.id}`,
        document: `${of.noun === "invoice" ? "Invoice" : "Job"} ${of.number}`,
        customer: customer?.name ?? "no customer",
        issued: issuedOn,
        due: dueOn,
        past: daysPast > 0 ? daysPast : null,
        column: COLUMN_WORDS[column],
        amount: { minor, currency },
      }))}
    />
  );
}
