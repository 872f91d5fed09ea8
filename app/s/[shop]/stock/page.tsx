import { DataTable } from "@/app/_ui/DataTable";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import type { StateCell, TableColumn, TableRow } from "@/app/_ui/tableTypes";
import { oneTaps, shortJobs } from "@/lib/data/jobs/takePart";
import { listFamilies, listParts, type StockRow } from "@/lib/data/stock/parts";
import { unitPriceText } from "@/lib/domain/money/unitPrice";
import { open } from "@/lib/gate/open";
import { elsewhereText } from "@/lib/schemas/bins";
import { PartListSchema } from "@/lib/schemas/parts";
import { PART_KINDS } from "@/lib/schemas/partWords";
import { amountText } from "./amount";
import { InHand } from "./InHand";
import { StockMenu } from "./StockMenu";

const COLUMNS: readonly TableColumn[] = [
  { key: "part", header: "Part" },
  { key: "kind", header: "Kind" },
  { key: "price", header: "Price", align: "end" },
  { key: "onHand", header: "On hand", kind: "figure" },
  { key: "reserved", header: "Reserved", kind: "figure" },
  { key: "free", header: "Free", kind: "figure" },
  { key: "onOrder", header: "On order", kind: "figure" },
  { key: "bin", header: "Bin" },
  { key: "state", header: "State", kind: "state" },
];

/** So few found parts are in somebody's hand rather than in a list. */
const FEW = 4;

function stateOf(part: StockRow, short: readonly string[], point: string): StateCell | null {
  const below = part.below ? `below ${point}` : "";
  if (short.length > 0)
    return {
      shape: "triangle",
      tone: "oxide",
      word: [`short for job ${short.join(", ")}`, below].filter(Boolean).join("; "),
    };
  const replaced = part.replacedBy ? `made no more: ${part.replacedBy.code}` : "";
  if (replaced) return { shape: "dash", word: replaced };
  if (below) return { shape: "triangle", tone: "oxide", word: below };
  return part.active ? null : { shape: "dash", word: "put away" };
}

function rowOf(
  slug: string,
  locale: string,
  currency: string,
  part: StockRow,
  short: readonly string[],
): TableRow {
  const amount = (milli: number) => amountText(milli, part.unit, locale);
  return {
    id: String(part.id),
    href: `/s/${slug}/stock/${part.id}`,
    part: { text: part.code, sub: part.name },
    kind: part.kind,
    price: part.priceE4 === null ? "by markup" : unitPriceText(part.priceE4, currency, locale),
    onHand: amount(part.onHandMilli),
    reserved: part.reservedMilli ? amount(part.reservedMilli) : null,
    free: amount(part.freeMilli),
    onOrder: part.onOrderMilli ? amount(part.onOrderMilli) : null,
    bin: { text: part.bin || "–", sub: elsewhereText(part) },
    state: stateOf(part, short, amount(part.pointMilli)),
  };
}

export default async function StockPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("stock.read", slug);
  const query = PartListSchema.parse(await searchParams);
  const [{ rows, next }, families] = await Promise.all([listParts(shop, query), listFamilies(shop)]);
  const inHand = query.q !== "" && rows.length > 0 && rows.length <= FEW && shop.can("stock.use");
  const [short, taps] = await Promise.all([
    shortJobs(
      shop,
      rows.map((part) => part.id),
    ),
    inHand ? oneTaps(shop, rows) : null,
  ]);
  const narrowed = query.q || query.kind || query.family || query.below;
  const add = shop.can("stock.write") && (
    <LinkButton href={`/s/${slug}/stock/new`} tone="main">
      Add a part
    </LinkButton>
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Stock"
        actions={
          <>
            {shop.can("stock.write") && (
              <LinkButton href={`/s/${slug}/stock/orders/suggested`}>What to order</LinkButton>
            )}
            {add}
          </>
        }
      />
      <StockMenu shop={slug} here="" />
      {taps && <InHand shop={slug} locale={shop.settings.locale} parts={rows} taps={taps} />}
      <DataTable
        caption="Parts"
        columns={COLUMNS}
        rows={rows.map((part) =>
          rowOf(slug, shop.settings.locale, shop.settings.currency, part, short.get(part.id) ?? []),
        )}
        locale={shop.settings.locale}
        path={`/s/${slug}/stock`}
        query={{
          q: query.q,
          kind: query.kind,
          family: query.family,
          below: query.below,
          after: query.after?.toString(),
        }}
        search="Code, size, name, supplier or bin"
        filters={[
          { name: "kind", label: "Kind", options: PART_KINDS.map((kind) => ({ value: kind, label: kind })) },
          {
            name: "family",
            label: "Family",
            options: families.map((family) => ({ value: family, label: family })),
          },
          { name: "below", label: "Point", options: [{ value: "1", label: "below its point" }] },
        ]}
        next={next?.toString() ?? null}
        previous={query.after ? "" : null}
        empty={
          narrowed ? (
            <Empty title="No part is like that." text="Clear the search, or look in the drawer." />
          ) : (
            <Empty
              title="No parts yet."
              text="Add what lies in your drawers. Jets with a family and a size are shown as a drawer, and quotes pick from it."
              action={add}
            />
          )
        }
      />
    </>
  );
}
