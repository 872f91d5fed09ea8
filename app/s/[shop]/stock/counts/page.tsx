import { Empty } from "@/app/_ui/Empty";
import { instantText } from "@/app/_ui/format";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import { listBins, listOpenCounts } from "@/lib/data/stock/binCounts";
import { open } from "@/lib/gate/open";
import { StockMenu } from "../StockMenu";
import { BeginCount, BeginNamed } from "./BeginCount";

export default async function CountsPage({ params }: { params: Promise<{ shop: string }> }) {
  const { shop: slug } = await params;
  const shop = await open("stock.write", slug);
  const [bins, going] = await Promise.all([listBins(shop), listOpenCounts(shop)]);
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
        {bins.length > 0 && <BeginNamed shop={slug} bins={bins.map((row) => row.bin)} />}
        {bins.length === 0 && (
          <Empty
            title="No part has a bin yet."
            text="Say on each part where it lies; then a bin is counted as a whole."
          />
        )}
        <ul className="grid gap-x-8 lg:grid-cols-2">
          {bins.map((row) => (
            <li key={row.bin} className="flex flex-wrap items-center gap-x-5 border-hair border-b py-1.5">
              <span className="min-w-16 font-mono font-semibold">{row.bin}</span>
              <span className="min-w-0 flex-1 text-[14px] text-soft">
                {row.lying === 0 ? "empty" : row.lying === 1 ? "1 part" : `${row.lying} parts`},{" "}
                {row.countedAt
                  ? `counted ${instantText(row.countedAt.toISOString(), locale, zone, "date")}`
                  : "never counted"}
              </span>
              <BeginCount shop={slug} bin={row.bin} />
            </li>
          ))}
        </ul>
      </Section>
    </>
  );
}
