import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { StateCell, TableColumn } from "@/app/_ui/tableTypes";
import { listPackages, type PackageLine } from "@/lib/data/packages/list";
import { open } from "@/lib/gate/open";

const COLUMNS: readonly TableColumn[] = [
  { key: "code", header: "Code" },
  { key: "name", header: "Package" },
  { key: "state", header: "State", kind: "state" },
  { key: "published", header: "Revision", kind: "figure" },
  { key: "since", header: "Published", kind: "instant" },
];

export default async function Packages({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("package.read", slug);
  const packages = await listPackages(shop);
  const start = shop.can("package.write") && (
    <LinkButton href={`/s/${slug}/packages/new`} tone="main">
      New package
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Packages"
        actions={
          <>
            <LinkButton href={`/s/${slug}/packages/library`}>Library</LinkButton>
            {start && <LinkButton href={`/s/${slug}/packages/import`}>From a file</LinkButton>}
            {start}
          </>
        }
      />
      <DataTable
        caption="Packages"
        columns={COLUMNS}
        locale={shop.settings.locale}
        zone={shop.settings.zone}
        rows={packages.map((p) => ({
          id: String(p.id),
          href: `/s/${slug}/packages/${p.id}`,
          code: p.code,
          name: { text: p.name, sub: p.summary },
          state: stateOf(p),
          published: p.published,
          since: p.publishedAt?.toISOString() ?? null,
        }))}
        empty={
          <Empty
            title="No package yet."
            text="A package is a priced recipe: options to choose from, the work each takes, its parts, and the rules of what goes with what."
            action={start}
          />
        }
      />
    </>
  );
}

function stateOf(p: PackageLine): StateCell {
  if (!p.active) return { shape: "dash", tone: "soft", word: "Off the list" };
  const writing = p.draft === null ? "" : `, revision ${p.draft} being written`;
  if (p.published === null)
    return { shape: "circle", tone: "soft", word: p.draft === null ? "Empty" : "Being written" };
  return { shape: "filled", tone: "pine", word: `Published${writing}` };
}
