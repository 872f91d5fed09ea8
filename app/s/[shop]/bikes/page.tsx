import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { listBikes } from "@/lib/data/bikes/bikes";
import { dayOf } from "@/lib/domain/schedule/localTime";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { open } from "@/lib/gate/open";
import { BikeQuery } from "@/lib/schemas/bikes";

export default async function BikesPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bike.read", slug);
  const query = BikeQuery.parse(await searchParams);
  const { rows, next } = await listBikes(shop, query);
  const { locale, zone, units } = shop.settings;
  const add = shop.can("bike.write") && (
    <LinkButton href={`/s/${slug}/bikes/new`} tone="main">
      New bike
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Bikes"
        actions={
          <>
            <LinkButton href={`/s/${slug}/bikes/cards`}>Model cards</LinkButton>
            {add}
          </>
        }
      />
      <DataTable
        caption="Bikes"
        columns={[
          { key: "bike", header: "Bike" },
          { key: "plate", header: "Plate", sortable: true },
          { key: "customer", header: "Customer" },
          { key: "odometer", header: "Odometer", kind: "figure", unit: distanceUnit(units), decimals: 0 },
          { key: "added", header: "Since", kind: "date", sortable: true },
        ]}
        rows={rows.map((row) => ({
          id: String(row.id),
          href: `/s/${slug}/bikes/${row.id}`,
          bike: {
            text: `${row.modelCard.make} ${row.modelCard.model}`,
            sub: [row.year, row.colour].filter(Boolean).join(", "),
          },
          plate: row.plate,
          customer: { text: row.customer.name, href: `/s/${slug}/customers/${row.customer.id}` },
          odometer: row.odometerKm === null ? null : shownDistance(row.odometerKm, units),
          added: dayOf(row.createdAt.getTime(), zone),
        }))}
        locale={locale}
        path={`/s/${slug}/bikes`}
        query={{ q: query.q, sort: query.sort, after: query.after?.toString() }}
        search="Plate, model, frame number or owner"
        next={next?.toString() ?? null}
        previous={query.after ? "" : null}
        empty={
          query.q ? (
            <Empty
              title="No bike is like that."
              text="Try the plate without spaces, or the owner's name."
              action={add}
            />
          ) : (
            <Empty
              title="No bikes yet."
              text="A bike belongs to a customer and stands on a model card; both can be made on the way."
              action={add}
            />
          )
        }
      />
    </>
  );
}
