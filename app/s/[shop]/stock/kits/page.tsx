import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { type KitView, listKits } from "@/lib/data/kits/read";
import { saleBookOf } from "@/lib/data/sales/parts";
import { openKit } from "@/lib/domain/pricing/kit";
import { open } from "@/lib/gate/open";
import { StockMenu } from "../StockMenu";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<{ q?: string | string[] }>;
}

export default async function KitsPage({ params, searchParams }: Props) {
  const [{ shop: slug }, asked] = await Promise.all([params, searchParams]);
  const shop = await open("stock.read", slug);
  const q = typeof asked.q === "string" ? asked.q.slice(0, 200) : "";
  const book = await saleBookOf(shop.read);
  const kits = await listKits(shop, book, q);
  const { currency } = shop.settings;
  const add = shop.can("stock.write") && (
    <LinkButton href={`/s/${slug}/stock/kits/new`} tone="main">
      New kit
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Kits"
        sub="Parts that go together, opened where they are used"
        actions={add}
      />
      <StockMenu shop={slug} here="/kits" />
      <DataTable
        caption="Kits"
        columns={[
          { key: "code", header: "Code" },
          { key: "name", header: "Kit" },
          { key: "parts", header: "Parts", kind: "figure" },
          { key: "free", header: "Could be opened now", kind: "figure" },
          { key: "price", header: "Price", kind: "money" },
          { key: "state", header: "State", kind: "state" },
        ]}
        rows={kits.map((kit) => ({
          id: String(kit.id),
          href: `/s/${slug}/stock/kits/${kit.id}`,
          code: kit.code,
          name: { text: kit.name, sub: kit.fits },
          parts: kit.parts.length,
          free: kit.free,
          price: priceOf(kit, currency),
          state: kit.active ? null : { shape: "dash", word: "put away" },
        }))}
        locale={shop.settings.locale}
        path={`/s/${slug}/stock/kits`}
        query={{ q }}
        search="Code, name or carburettor"
        empty={
          q ? (
            <Empty title="No kit of that." text="Try part of the code or the carburettor's name." />
          ) : (
            <Empty
              title="No kits yet."
              text="Screws, seals, a float valve: what always goes together, sold or fitted in one act."
              action={add}
            />
          )
        }
      />
    </>
  );
}

/** What one kit costs; nothing where a part of it has no price. */
function priceOf({ parts, priceMinor }: KitView, currency: string) {
  const amounts = openKit(parts, priceMinor, 1, currency).map(({ amountMinor }) => amountMinor);
  if (amounts.some((one) => one === null)) return null;
  return { minor: amounts.reduce<number>((sum, one) => sum + (one ?? 0), 0), currency };
}
