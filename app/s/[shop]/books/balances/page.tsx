import { DataTable } from "@/app/_ui/DataTable";
import { DateText } from "@/app/_ui/DateText";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { journalSums } from "@/lib/data/ledger/journal";
import { open } from "@/lib/gate/open";
import { ledgerRange } from "@/lib/schemas/ledger";
import { RangeForm } from "../RangeForm";

const COLUMNS: readonly TableColumn[] = [
  { key: "account", header: "Account" },
  { key: "opening", header: "Opening", kind: "money" },
  { key: "debit", header: "Debit", kind: "money" },
  { key: "credit", header: "Credit", kind: "money" },
  { key: "closing", header: "Closing", kind: "money" },
];

/** The trial balance of a range: what stood on each account, what moved, what stands. */
export default async function Balances({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { locale, zone, currency } = shop.settings;
  const { rows, range, debitMinor } = await journalSums(
    shop,
    ledgerRange(await searchParams, shop.now, zone),
  );
  const days = `from=${range.from}&to=${range.to}`;
  const money = (minor: number) => ({ minor, currency });
  return (
    <>
      <PageHead
        of={shop.name}
        title="Trial balance"
        sub={
          <>
            <DateText date={range.from} locale={locale} /> to <DateText date={range.to} locale={locale} />
          </>
        }
        actions={
          <>
            <LinkButton href={`/s/${slug}/books/journal?${days}`}>Journal</LinkButton>
            <LinkButton href={`/api/s/${slug}/books/balances?${days}`} download>
              As CSV
            </LinkButton>
          </>
        }
      />
      <RangeForm action={`/s/${slug}/books/balances`} range={range} />
      <p className="mb-3 max-w-prose text-soft">
        Debits are above zero, credits below. Openings, movements and closings each add up to nothing.
      </p>
      <DataTable
        caption="Accounts"
        columns={COLUMNS}
        locale={locale}
        rows={[
          ...rows.map(({ account, openingMinor, closingMinor, ...moved }) => ({
            id: account.code,
            account: { text: `${account.code} ${account.name}`, sub: account.kind },
            opening: money(openingMinor),
            debit: money(moved.debitMinor),
            credit: money(moved.creditMinor),
            closing: money(closingMinor),
          })),
          {
            id: "sum",
            account: "All accounts",
            opening: money(rows.reduce((sum, row) => sum + row.openingMinor, 0)),
            debit: money(debitMinor),
            credit: money(rows.reduce((sum, row) => sum + row.creditMinor, 0)),
            closing: money(rows.reduce((sum, row) => sum + row.closingMinor, 0)),
          },
        ]}
      />
    </>
  );
}
