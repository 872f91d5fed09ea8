import { forbidden, notFound } from "next/navigation";
import { PageHead } from "@/app/_ui/PageHead";
import { getSupplier } from "@/lib/data/orders/suppliers";
import { marksOf } from "@/lib/domain/money/format";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { PriceListDesk } from "./PriceListDesk";

export default async function PriceListPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.write", slug);
  if (!shop.can("margin.read")) forbidden();
  const supplier = await getSupplier(shop, pathId(id));
  if (!supplier) notFound();
  return (
    <>
      <PageHead of={shop.name} title="Price list" sub={supplier.name} />
      <p className="mb-5 max-w-prose text-soft">
        The supplier's list as CSV: its codes and its costs. Parts you do not keep are passed over; nothing
        changes before you have seen it.
      </p>
      <PriceListDesk
        shop={slug}
        supplierId={supplier.id}
        currency={shop.settings.currency}
        locale={shop.settings.locale}
        mark={marksOf(shop.settings.locale).decimal === "," ? "," : "."}
      />
    </>
  );
}
