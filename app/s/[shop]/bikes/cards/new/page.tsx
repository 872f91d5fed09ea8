import { PageHead } from "@/app/_ui/PageHead";
import { listFamilies } from "@/lib/data/stock/parts";
import { distanceUnit } from "@/lib/domain/units/distance";
import { open } from "@/lib/gate/open";
import { ModelCardForm } from "../ModelCardForm";

export default async function NewModelCardPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("card.write", slug);
  return (
    <>
      <PageHead of={shop.name} title="New model card" />
      <ModelCardForm
        shop={slug}
        families={await listFamilies(shop)}
        service={{ unit: distanceUnit(shop.settings.units), every: undefined }}
      />
    </>
  );
}
