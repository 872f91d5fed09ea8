import { PageHead } from "@/app/_ui/PageHead";
import { binNamesIn } from "@/lib/data/stock/lying";
import { listFamilies } from "@/lib/data/stock/parts";
import { open } from "@/lib/gate/open";
import { PartForm } from "../PartForm";

export default async function NewPartPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  const [families, bins] = await Promise.all([listFamilies(shop), binNamesIn(shop.read)]);
  return (
    <>
      <PageHead of={shop.name} title="Add a part" />
      <PartForm
        shop={slug}
        currency={shop.settings.currency}
        families={families}
        bins={bins}
        withCost={shop.can("margin.read")}
      />
    </>
  );
}
