import { PageHead } from "@/app/_ui/PageHead";
import { binsToOffer } from "@/lib/data/stock/lying";
import { listFamilies } from "@/lib/data/stock/parts";
import { open } from "@/lib/gate/open";
import { PartForm } from "../PartForm";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ code?: string | string[] }>;
}

export default async function NewPartPage({ params, searchParams }: Props) {
  const [{ shop: slug }, { code }] = await Promise.all([params, searchParams]);
  const shop = await open("stock.write", slug);
  const [families, bins] = await Promise.all([listFamilies(shop), binsToOffer(shop.read)]);
  return (
    <>
      <PageHead of={shop.name} title="Add a part" />
      <PartForm
        shop={slug}
        code={typeof code === "string" ? code.slice(0, 40) : undefined}
        currency={shop.settings.currency}
        families={families}
        bins={bins}
        withCost={shop.can("margin.read")}
      />
    </>
  );
}
