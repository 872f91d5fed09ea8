import { Empty } from "@/app/_ui/Empty";
import { dateText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { LinkButton } from "@/app/_ui/LinkButton";
import { Note } from "@/app/_ui/Note";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { orderSuggestions } from "@/lib/data/orders/suggest";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { firstLines } from "@/lib/domain/stock/firstLines";
import { open } from "@/lib/gate/open";
import { SuggestedListSchema } from "@/lib/schemas/orders";
import { amountText } from "../../amount";
import { SuggestedForm } from "./SuggestedForm";

/** So many lines stand on a page: those put on a draft make room for the next. */
const SHOWN = 25;

export default async function SuggestedPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  const { supplier } = SuggestedListSchema.parse(await searchParams);
  const all = await orderSuggestions(shop, shop.can("margin.read"));
  const asked = all.filter((order) => order.supplier === supplier);
  const { orders, later } = firstLines(asked.length > 0 ? asked : all, SHOWN);
  const path = `/s/${slug}/stock/orders/suggested`;
  const { locale, currency } = shop.settings;
  return (
    <>
      <PageHead
        of={shop.name}
        title="What to order"
        actions={
          <>
            {asked.length > 0 && <LinkButton href={path}>All suppliers</LinkButton>}
            <LinkButton href={`/s/${slug}/stock/orders`}>Orders</LinkButton>
          </>
        }
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
          {order.lines.length < order.count && (
            <p className="mb-2 text-soft">
              The first {order.lines.length} of {order.count}: once they are on the draft, the next ones stand
              here.
            </p>
          )}
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
      {later.length > 0 && (
        <Section title="Further suppliers">
          <ul>
            {later.map(({ supplier: name, count }) => (
              <li key={name}>
                <Link
                  href={`${path}?supplier=${encodeURIComponent(name)}`}
                  className="inline-flex min-h-8 items-center pointer-coarse:min-h-12"
                >
                  {name}: {count === 1 ? "1 line" : `${count} lines`}
                </Link>
              </li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}
