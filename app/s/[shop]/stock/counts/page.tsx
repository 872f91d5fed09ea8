import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { TableFilters } from "@/app/_ui/TableFilters";
import { TablePages } from "@/app/_ui/TablePages";
import { listBins, listOpenCounts } from "@/lib/data/stock/binCounts";
import { open } from "@/lib/gate/open";
import { BinListSchema } from "@/lib/schemas/stockCounts";
import { StockMenu } from "../StockMenu";
import { BeginNamed, BinList } from "./BeginCount";

export default async function CountsPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  const query = BinListSchema.parse(await searchParams);
  const [{ rows: bins, next }, going] = await Promise.all([listBins(shop, query), listOpenCounts(shop)]);
  const at = { path: `/s/${slug}/stock/counts`, query };
  const { locale, zone } = shop.settings;
  return (
    <>
      <PageHead of={shop.name} title="Counts" />
      <StockMenu shop={slug} here="/counts" />
      {going.length > 0 && (
        <Section title="Going on">
          <ul>
            {going.map((sheet) => (
              <li key={sheet.id} className="flex flex-wrap items-center gap-x-5 border-hair border-b py-2">
                <Link
                  href={`/s/${slug}/stock/counts/${sheet.id}`}
                  className="inline-flex min-h-8 items-center font-mono font-semibold pointer-coarse:min-h-12"
                >
                  Bin {sheet.bin || "–"}
                </Link>
                <State shape={sheet.state === "counted" ? "diamond" : "circle"} tone="brass">
                  {sheet.state === "counted"
                    ? `counted by ${sheet.countedBy}, to be approved`
                    : "being counted"}
                </State>
              </li>
            ))}
          </ul>
        </Section>
      )}
      <Section title="Bins">
        {(bins.length > 0 || query.q) && (
          <>
            <BeginNamed shop={slug} bins={bins.map((row) => row.bin)} />
            <TableFilters at={at} search="Bins with this in their name" filters={[]} />
          </>
        )}
        {bins.length === 0 ? (
          query.q ? (
            <Empty title="No bin is called that." text="Try part of its name, or clear the search." />
          ) : (
            <Empty
              title="No part has a bin yet."
              text="Say on each part where it lies; then a bin is counted as a whole."
            />
          )
        ) : (
          <BinList
            shop={slug}
            bins={bins.map((row) => ({
              bin: row.bin,
              said: [
                row.lying === 0 ? "empty" : row.lying === 1 ? "1 part" : `${row.lying} parts`,
                row.countedAt
                  ? `counted ${instantText(row.countedAt.toISOString(), locale, zone, "date")}`
                  : "never counted",
              ].join(", "),
            }))}
          />
        )}
        <TablePages at={at} next={next} previous={query.after ? "" : null} />
      </Section>
    </>
  );
}
