import { notFound } from "next/navigation";
import { Facts } from "@/app/_ui/Facts";
import { dateText, instantText } from "@/app/_ui/format";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { getOrder } from "@/lib/data/orders/list";
import { binsToOffer } from "@/lib/data/stock/lying";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { SenderGaps } from "../../../_papers/SenderGaps";
import { orderState } from "../orderState";
import { AddLine, CancelOrder, PlaceOrder } from "./OrderActs";
import { OrderLines } from "./OrderLines";
import { ReceiveForm } from "./ReceiveForm";

export default async function OrderPage({ params }: { params: Promise<{ shop: string; id: string }> }) {
  const { shop: slug, id } = await params;
  const shop = await open("stock.read", slug);
  const withCost = shop.can("margin.read");
  const order = await getOrder(shop, pathId(id), withCost);
  if (!order) notFound();
  const { locale, zone, currency } = shop.settings;
  const mayWrite = shop.can("stock.write");
  const draft = order.state === "draft";
  const late = order.lines.some((line) => line.late);
  const state = orderState(order.state, late);
  const file = `/api/s/${slug}/orders/${order.id}`;
  const openLines = order.lines.filter((line) => line.openMilli > 0);
  return (
    <>
      <PageHead
        of={shop.name}
        title={`Order ${order.number}`}
        sub={order.supplier.name}
        state={
          <State shape={state.shape} tone={state.tone}>
            {state.word}
          </State>
        }
        actions={
          mayWrite && (
            <>
              <LinkButton href={`${file}/csv`} download>
                CSV
              </LinkButton>
              <LinkButton href={`${file}/pdf`} download>
                PDF
              </LinkButton>
              {(draft || order.placed) && <CancelOrder shop={slug} order={order} draft={draft} />}
              {draft && order.lines.length > 0 && (
                <PlaceOrder shop={slug} order={order} today={order.today} mailTo={order.supplier.email} />
              )}
            </>
          )
        }
      />
      {draft && <SenderGaps shop={shop} />}
      <div className="grid gap-x-8 lg:grid-cols-[minmax(0,3fr)_minmax(0,1fr)]">
        <div className="min-w-0">
          <Section title="Lines">
            <OrderLines
              shop={slug}
              order={order}
              locale={locale}
              zone={zone}
              currency={currency}
              mayWrite={mayWrite}
            />
            {draft && mayWrite && <AddLine shop={slug} supplierId={order.supplier.id} />}
          </Section>
          {order.placed && mayWrite && openLines.length > 0 && (
            <Section title="A delivery came">
              <ReceiveForm
                shop={slug}
                orderId={order.id}
                currency={currency}
                withCost={withCost}
                bins={await binsToOffer(shop.read)}
                lines={openLines.map((line) => ({
                  id: line.id,
                  code: line.part.code,
                  name: line.part.name,
                  unit: line.part.unit,
                  bin: line.part.bin,
                  open: String(line.openMilli / 1000),
                  costE4: line.unitCostE4,
                }))}
              />
            </Section>
          )}
        </div>
        <Section title="The order">
          <Facts
            rows={[
              { name: "Supplier", value: order.supplier.name },
              { name: "E-mail", value: order.supplier.email },
              { name: "Our number there", value: order.supplier.customerNumber, mono: true },
              {
                name: "Drafted",
                value: instantText(order.createdAt.toISOString(), locale, zone, "date"),
                mono: true,
              },
              { name: "Ordered", value: order.orderedOn && dateText(order.orderedOn, locale), mono: true },
              {
                name: "Mail written",
                value: order.mailedAt && instantText(order.mailedAt.toISOString(), locale, zone),
                mono: true,
              },
              { name: "Note", value: order.note },
            ].filter((row) => row.value)}
          />
        </Section>
      </div>
    </>
  );
}
