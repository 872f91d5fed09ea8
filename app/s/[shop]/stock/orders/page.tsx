import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import type { TableColumn } from "@/app/_ui/tableTypes";
import { listOrders } from "@/lib/data/orders/list";
import { listSuppliers } from "@/lib/data/orders/suppliers";
import { open } from "@/lib/gate/open";
import { ORDER_STATES, ORDER_WORDS, OrderListSchema } from "@/lib/schemas/orders";
import { StockMenu } from "../StockMenu";
import { orderState } from "./orderState";

const COLUMNS: readonly TableColumn[] = [
  { key: "order", header: "Order" },
  { key: "ordered", header: "Ordered", kind: "date" },
  { key: "due", header: "Due", kind: "date" },
  { key: "lines", header: "Lines", kind: "figure" },
  { key: "open", header: "Open", kind: "figure" },
  { key: "state", header: "State", kind: "state" },
];

export default async function OrdersPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const query = OrderListSchema.parse(await searchParams);
  const [{ rows, next }, suppliers] = await Promise.all([listOrders(shop, query), listSuppliers(shop)]);
  const suggest = shop.can("stock.write") && (
    <LinkButton href={`/s/${slug}/stock/orders/suggested`} tone="main">
      What to order
    </LinkButton>
  );
  return (
    <>
      <PageHead of={shop.name} title="Orders" actions={suggest} />
      <StockMenu shop={slug} here="/orders" />
      <Section title="Purchase orders">
        <DataTable
          caption="Purchase orders, newest first"
          columns={COLUMNS}
          rows={rows.map((order) => ({
            id: String(order.id),
            href: `/s/${slug}/stock/orders/${order.id}`,
            order: { text: `Order ${order.number}`, sub: order.supplier },
            ordered: order.orderedOn,
            due: order.dueOn,
            lines: order.lines,
            open: order.open,
            state: orderState(order.state, order.late),
          }))}
          locale={shop.settings.locale}
          zone={shop.settings.zone}
          path={`/s/${slug}/stock/orders`}
          query={{
            state: query.state,
            supplier: query.supplier?.toString(),
            after: query.after?.toString(),
          }}
          filters={[
            {
              name: "state",
              label: "State",
              options: ORDER_STATES.map((value) => ({ value, label: ORDER_WORDS[value] })),
            },
            {
              name: "supplier",
              label: "Supplier",
              options: suppliers.map((one) => ({ value: String(one.id), label: one.name })),
            },
          ]}
          next={next?.toString() ?? null}
          previous={query.after ? "" : null}
          empty={
            <Empty
              title={query.state || query.supplier ? "No order is like that." : "No orders yet."}
              text="See what jobs wait for and what is under its point, and put it on a draft for each supplier."
              action={suggest}
            />
          }
        />
      </Section>
    </>
  );
}
