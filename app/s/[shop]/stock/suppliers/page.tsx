import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { listSuppliers } from "@/lib/data/orders/suppliers";
import { open } from "@/lib/gate/open";
import { StockMenu } from "../StockMenu";

export default async function SuppliersPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const rows = await listSuppliers(shop);
  const add = shop.can("stock.write") && (
    <LinkButton href={`/s/${slug}/stock/suppliers/new`} tone="main">
      Add a supplier
    </LinkButton>
  );
  return (
    <>
      <PageHead of={shop.name} title="Suppliers" actions={add} />
      <StockMenu shop={slug} here="/suppliers" />
      <DataTable
        caption="Suppliers"
        columns={[
          { key: "name", header: "Supplier" },
          { key: "phone", header: "Telephone" },
          { key: "leadDays", header: "Days to arrive", kind: "figure" },
          { key: "open", header: "Open orders", kind: "figure" },
          { key: "state", header: "State", kind: "state" },
        ]}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `/s/${slug}/stock/suppliers/${row.id}`,
          name: { text: row.name, sub: row.email },
          phone: row.phone,
          leadDays: row.leadDays,
          open: row.openOrders || null,
          state: row.active ? null : { shape: "dash", word: "not used" },
        }))}
        locale={shop.settings.locale}
        empty={
          <Empty
            title="No suppliers yet."
            text="They come by themselves as parts name them, or add one here."
            action={add}
          />
        }
      />
    </>
  );
}
