import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { cardName } from "@/lib/data/bikes/cardName";
import { listModelCards } from "@/lib/data/bikes/modelCards";
import { open } from "@/lib/gate/open";
import { ModelCardQuery } from "@/lib/schemas/modelCards";

export default async function ModelCardsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bike.read", slug);
  const query = ModelCardQuery.parse(await searchParams);
  const { rows, next } = await listModelCards(shop, query);
  const path = `/s/${slug}/bikes/cards`;
  const add = shop.can("card.write") && (
    <LinkButton href={`${path}/new`} tone="main">
      New model card
    </LinkButton>
  );
  return (
    <>
      <PageHead of={shop.name} title="Model cards" actions={add} />
      <DataTable
        caption="Model cards"
        columns={[
          { key: "name", header: "Model" },
          { key: "cc", header: "Displacement", kind: "figure", unit: "cc", decimals: 0 },
          { key: "cylinders", header: "Cylinders", kind: "figure", decimals: 0 },
          { key: "carburettors", header: "Carburettors", kind: "figure", decimals: 0 },
          { key: "type", header: "Type" },
        ]}
        rows={rows.map((card) => ({
          id: String(card.id),
          href: `${path}/${card.id}`,
          name: cardName(card),
          cc: card.displacementCc,
          cylinders: card.cylinders,
          carburettors: card.carburettors,
          type: card.carburettorType,
        }))}
        locale={shop.settings.locale}
        path={path}
        query={{ q: query.q, after: query.after?.toString() }}
        search="Make or model"
        next={next?.toString() ?? null}
        previous={query.after ? "" : null}
        empty={
          query.q ? (
            <Empty title="No card is called that." action={add} />
          ) : (
            <Empty
              title="No model cards yet."
              text="A card holds what you know of a model: jets as delivered, needle, springs, limits. Settings are computed from it."
              action={add}
            />
          )
        }
      />
    </>
  );
}
