import { notFound } from "next/navigation";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { getSupplier } from "@/lib/data/orders/suppliers";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SupplierForm } from "./SupplierForm";

export default async function SupplierPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.write", slug);
  const supplier = id === "new" ? null : await getSupplier(shop, pathId(id));
  if (!supplier && id !== "new") notFound();
  return (
    <>
      <PageHead
        of={shop.name}
        title={supplier?.name ?? "Add a supplier"}
        actions={
          supplier && (
            <>
              <LinkButton href={`/s/${slug}/stock/orders?supplier=${supplier.id}`}>Orders</LinkButton>
              {shop.can("margin.read") && (
                <LinkButton href={`/s/${slug}/stock/suppliers/${supplier.id}/prices`}>Price list</LinkButton>
              )}
            </>
          )
        }
      />
      <SupplierForm shop={slug} supplier={supplier} />
    </>
  );
}
