import { PageHead } from "@/app/_ui/PageHead";
import { listFamilies } from "@/lib/data/stock/parts";
import { open } from "@/lib/gate/open";
import { PartForm } from "../PartForm";

export default async function NewPartPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  return (
    <>
      <PageHead title="Add a part" />
      <PartForm
        shop={slug}
        currency={shop.settings.currency}
        families={await listFamilies(shop)}
        withCost={shop.can("margin.read")}
      />
    </>
  );
}
