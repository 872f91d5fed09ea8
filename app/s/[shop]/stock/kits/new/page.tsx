import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { open } from "@/lib/gate/open";
import { KitForm } from "../KitForm";

export default async function NewKit({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  return (
    <>
      <PageHead
        of={shop.name}
        title="New kit"
        actions={<LinkButton href={`/s/${slug}/stock/kits`}>Kits</LinkButton>}
      />
      <KitForm slug={slug} currency={shop.settings.currency} kit={undefined} />
    </>
  );
}
