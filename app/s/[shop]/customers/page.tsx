import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { listCustomers } from "@/lib/data/customers/customers";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { open } from "@/lib/gate/open";
import { CustomerQuery } from "@/lib/schemas/customers";

const COLUMNS: readonly TableColumn[] = [
  { key: "name", header: "Name", sortable: true },
  { key: "bikes", header: "Bikes" },
  { key: "phone", header: "Phone" },
  { key: "email", header: "E-mail" },
  { key: "added", header: "Since", kind: "date", sortable: true },
];

export default async function CustomersPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("customer.read", slug);
  const query = CustomerQuery.parse(await searchParams);
  const { rows, next } = await listCustomers(shop, query);
  const { locale, zone } = shop.settings;
  const add = shop.can("customer.write") && (
    <LinkButton href={`/s/${slug}/customers/new`} tone="main">
      New customer
    </LinkButton>
  );
  return (
    <>
      <PageHead of={shop.name} title="Customers" actions={add} />
      <DataTable
        caption="Customers"
        columns={COLUMNS}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `/s/${slug}/customers/${row.id}`,
          name: row.business ? { text: row.name, sub: "business" } : row.name,
          bikes: row.bikes.map(({ modelCard }) => `${modelCard.make} ${modelCard.model}`).join(", "),
          phone: row.phone,
          email: row.email,
          added: dayOf(row.createdAt.getTime(), zone),
        }))}
        locale={locale}
        path={`/s/${slug}/customers`}
        query={{ q: query.q, sort: query.sort, after: query.after?.toString() }}
        search="Name, phone, e-mail or address"
        next={next?.toString() ?? null}
        previous={query.after ? "" : null}
        empty={
          query.q ? (
            <Empty
              title="Nobody is called that."
              text="Try part of the name, or the phone number without spaces."
              action={add}
            />
          ) : (
            <Empty
              title="No customers yet."
              text="Add the first one, or bring in the list you keep now."
              action={
                <>
                  {add}
                  {shop.can("import.run") && (
                    <LinkButton href={`/s/${slug}/import/customers`}>Bring in a list</LinkButton>
                  )}
                </>
              }
            />
          )
        }
      />
    </>
  );
}
