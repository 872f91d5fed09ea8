import { Empty } from "@/app/_ui/Empty";
import { dateText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { orderSuggestions } from "@/lib/data/orders/suggest";
import { unitPriceText } from "@/lib/domain/money/format";
import { open } from "@/lib/gate/open";
import { amountText } from "../../amount";
import { SuggestedForm } from "./SuggestedForm";

export default async function SuggestedPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  const orders = await orderSuggestions(shop, shop.can("margin.read"));
  const { locale, currency } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title="What to order"
        actions={<LinkButton href={`/s/${slug}/stock/orders`}>Orders</LinkButton>}
      />
      <p className="mb-5 max-w-prose text-soft">
        What jobs wait for comes first, the earliest needed first; then what is under its point. Open a
        quantity to see why. Putting lines on a draft orders nothing yet.
      </p>
      {orders.length === 0 && (
        <Empty
          title="Nothing needs ordering."
          text="No job is short of a part, and nothing is under its point."
        />
      )}
      {orders.map((order) => (
        <Section key={order.supplier} title={order.supplier}>
          {order.supplierId === null && <Note>Say on each part who sells it, and it is ordered there.</Note>}
          <SuggestedForm
            shop={slug}
            supplier={order.supplier}
            lines={order.lines.map((line) => ({
              key: `${line.partId}-${line.jobId ?? 0}`,
              href: `/s/${slug}/stock/${line.partId}`,
              code: line.code,
              name: line.name,
              unit: line.unit,
              quantity: String(line.quantityMilli / 1000),
              shown: amountText(line.quantityMilli, line.unit, locale),
              rule: line.rule,
              because: line.because,
              forJob: line.jobNumber,
              needed: line.neededOn && dateText(line.neededOn, locale),
              leadDays: line.leadDays,
              cost:
                line.costE4 === null ? null : `${unitPriceText(line.costE4, currency, locale)} ${currency}`,
            }))}
          />
        </Section>
      ))}
    </>
  );
}
