import { notFound } from "next/navigation";
import { DataTable } from "@/app/_ui/DataTable";
import { Form } from "@/app/_ui/Form";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { getKit } from "@/lib/data/kits/read";
import { saleBookOf } from "@/lib/data/sales/parts";
import { openKit } from "@/lib/domain/pricing/kit";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { quantityText } from "@/lib/schemas/quantity";
import { retireIt } from "../actions";
import { KitForm } from "../KitForm";

/** A kit as it opens: each part with its share of the price, how many can be opened now, and the form. */
export default async function KitPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.read", slug);
  const kit = await getKit(shop, pathId(id), await saleBookOf(shop.read));
  if (!kit) notFound();
  const { currency, locale } = shop.settings;
  const opened = openKit(kit.parts, kit.priceMinor, 1, currency);
  const mayWrite = shop.can("stock.write");
  return (
    <>
      <PageHead
        of={shop.name}
        title={kit.name}
        sub={<span className="font-mono">{kit.code}</span>}
        state={!kit.active && <State shape="dash">Put away</State>}
        actions={
          <>
            <LinkButton href={`/s/${slug}/stock/kits`}>Kits</LinkButton>
            {mayWrite && (
              <Form
                action={retireIt}
                shop={slug}
                hidden={{ id, version: String(kit.version), active: kit.active ? "no" : "yes" }}
                label="In use"
              >
                <SubmitButton tone="second">{kit.active ? "Put it away" : "Bring it back"}</SubmitButton>
              </Form>
            )}
          </>
        }
      />
      {kit.fits && <p className="mb-3 text-soft">{kit.fits}</p>}
      <p className="mb-3">{`${kit.free} could be opened from what is free in stock.`}</p>
      <DataTable
        caption="What one kit opens into"
        columns={[
          { key: "code", header: "Part" },
          { key: "quantity", header: "Quantity", kind: "figure" },
          { key: "free", header: "Free", kind: "figure" },
          { key: "amount", header: "Of the price", kind: "money" },
        ]}
        rows={kit.parts.map((part, at) => ({
          id: String(part.id),
          href: `/s/${slug}/stock/${part.id}`,
          code: { text: part.code, sub: part.active ? part.name : `${part.name}, put away` },
          quantity: quantityText(part.quantityMilli, part.unit),
          free: quantityText(part.freeMilli, part.unit),
          amount: opened[at]?.amountMinor == null ? null : { minor: opened[at]?.amountMinor ?? 0, currency },
        }))}
        locale={locale}
      />
      {mayWrite && (
        <Section title="Change it" className="mt-6">
          <KitForm slug={slug} currency={currency} kit={kit} />
        </Section>
      )}
    </>
  );
}
