import { DataTable } from "@/app/_ui/DataTable";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { readBook } from "@/lib/data/ledger/chart";
import { open } from "@/lib/gate/open";
import { AccountForm } from "./AccountForm";
import { UsesForm } from "./UsesForm";

const COLUMNS: readonly TableColumn[] = [
  { key: "code", header: "Number" },
  { key: "name", header: "Name" },
  { key: "kind", header: "Kind" },
];

/** The shop's chart of accounts, and which of them takes what happens. */
export default async function Accounts({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("books.read", slug);
  const { chart, version, source } = await readBook(shop);
  const { locale, taxRegime } = shop.settings;
  const grouped = taxRegime === "no";
  const base = `/s/${slug}/books/accounts`;
  return (
    <>
      <PageHead
        of={shop.name}
        title="Accounts"
        actions={
          shop.can("books.write") && <LinkButton href={`${base}/opening`}>Opening balances</LinkButton>
        }
      />
      {source && <Note title="A chart to start with.">{source}</Note>}
      <DataTable
        caption="Chart of accounts"
        columns={COLUMNS}
        locale={locale}
        rows={chart.accounts.map(({ code, name, kind, groupCategory, groupCode }) => ({
          id: code,
          ...(shop.can("books.write") ? { href: `${base}/${encodeURIComponent(code)}` } : {}),
          code,
          name: grouped ? { text: name, sub: `${groupCategory} ${groupCode}`.trim() || "no group" } : name,
          kind,
        }))}
      />
      {shop.can("books.write") && (
        <>
          <Section title="Which account takes what" className="mt-7">
            <UsesForm slug={slug} version={version} chart={chart} />
          </Section>
          <Section title="Add an account">
            <AccountForm slug={slug} version={version} grouped={grouped} />
          </Section>
        </>
      )}
    </>
  );
}
