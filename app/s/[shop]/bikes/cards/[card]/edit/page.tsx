import { notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { getModelCard } from "@/lib/data/bikes/modelCards";
import { listFamilies } from "@/lib/data/stock/parts";
import { distanceUnit, shownDistance } from "@/lib/domain/units/distance";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { ModelCardForm } from "../../ModelCardForm";

export default async function EditModelCardPage({
  params,
}: {
  params: Promise<{ shop: string; card: string }>;
}) {
  const { shop: slug, card: id } = await params;
  const shop = await open("card.write", slug);
  const card = await getModelCard(shop, pathId(id));
  if (!card) notFound();
  const { units } = shop.settings;
  const every = card.serviceKm === null ? undefined : shownDistance(card.serviceKm, units);
  return (
    <>
      <PageHead of={shop.name} title={`Change ${card.make} ${card.model}`} />
      <ModelCardForm
        shop={slug}
        families={await listFamilies(shop)}
        card={card}
        service={{ unit: distanceUnit(units), every }}
      />
    </>
  );
}
