import { notFound } from "next/navigation";
import { Dialog } from "@/app/_ui/Dialog";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { binsToOffer } from "@/lib/data/stock/lying";
import { getPart, listFamilies } from "@/lib/data/stock/parts";
import { priceText } from "@/lib/domain/money/scale";
import { binText, fetchOrder } from "@/lib/domain/stock/bins";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { takePartOut } from "../../actions";
import { amountText } from "../../amount";
import { PartForm } from "../../PartForm";

export default async function EditPartPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.write", slug);
  const withCost = shop.can("margin.read");
  const [part, families, bins] = await Promise.all([
    getPart(shop, pathId(id), withCost),
    listFamilies(shop),
    binsToOffer(shop.read),
  ]);
  if (!part) notFound();
  const money = (e4: number | null | undefined) => (e4 == null ? "" : priceText(e4, shop.settings.currency));
  return (
    <>
      <PageHead of={shop.name} title={`Change ${part.code}`} sub={part.name} />
      <PartForm
        shop={slug}
        currency={shop.settings.currency}
        families={families}
        bins={bins}
        withCost={withCost}
        part={{
          id: part.id,
          version: part.version,
          active: part.active,
          code: part.code,
          name: part.name,
          kind: part.kind,
          unit: part.unit,
          family: part.family,
          size: part.sizeMilli === null ? "" : String(part.sizeMilli / 1000),
          convention: part.convention,
          supplier: part.supplier,
          supplierCode: part.supplierCode,
          bin: part.bin,
          onHand: fetchOrder(part.bins, part.bin)
            .map(
              (one) =>
                `${amountText(one.onHandMilli, part.unit, shop.settings.locale)} in ${binText(one.bin)}`,
            )
            .join(", "),
          leadDays: part.leadDays === null ? "" : String(part.leadDays),
          cost: money(part.cost?.costE4),
          price: money(part.priceE4),
          taxMark: part.taxMark,
          priceUntil: part.priceUntil ?? "",
          top: part.topMilli ? String(part.topMilli / 1000) : "",
          replacedBy: part.replacedBy?.code ?? "",
          point: part.pointMilli ? String(part.pointMilli / 1000) : "",
        }}
      />
      <div className="mt-10 flex flex-wrap gap-3">
        {shop.can("record.merge") && part.active && (
          <LinkButton href={`/s/${slug}/stock/${part.id}/merge`}>Merge with a double</LinkButton>
        )}
        <Dialog trigger="Remove this part" triggerTone="danger" title={`Remove ${part.code}`}>
          <Form
            action={takePartOut}
            shop={slug}
            hidden={{ id: String(part.id), version: String(part.version) }}
            label="Remove"
          >
            <p className="mb-3">
              For a part made by mistake. One that has moved, or that is reserved or ordered, is not removed:
              take its tick “In use” away to put it away.
            </p>
            <SubmitButton tone="danger">Remove</SubmitButton>
          </Form>
        </Dialog>
      </div>
    </>
  );
}
