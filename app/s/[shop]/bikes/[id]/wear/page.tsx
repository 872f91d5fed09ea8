import { notFound } from "next/navigation";
import { Empty } from "@/app/_ui/Empty";
import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { measuredOnBike } from "@/lib/data/bikes/measured";
import { wearOnBike } from "@/lib/data/bikes/wear";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { Wear } from "../../cards/[card]/Wear";
import { OfBike } from "../OfBike";
import { TrendOf } from "./TrendOf";

/** What gauges said of a bike's parts and settings over its visits. */
export default async function WearPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<{ over?: string }>;
}) {
  const [{ shop: slug, id }, asked] = await Promise.all([params, searchParams]);
  const over = asked.over === "time" ? "time" : "distance";
  const shop = await open("bike.read", slug);
  const bike = await measuredOnBike(shop, pathId(id));
  if (!bike) notFound();
  const { locale, zone, units } = shop.settings;
  const limits = await wearOnBike(shop, bike);
  const home = `/s/${slug}/bikes/${bike.id}`;
  return (
    <>
      <PageHead
        title="Wear and readings"
        of={shop.name}
        sub={<OfBike home={home} bike={bike} />}
        actions={
          <>
            {bike.carburettors.length > 1 && <LinkButton href={`${home}/balance`}>Vacuum balance</LinkButton>}
            <LinkButton href={`${home}/effects`}>Before and after</LinkButton>
            <LinkButton href={`${home}/wear?over=${over === "time" ? "distance" : "time"}`}>
              {over === "time" ? "Over distance" : "Over time"}
            </LinkButton>
          </>
        }
      />
      <Wear own={limits} bikes={[]} slug={slug} locale={locale} />
      {bike.trends.length === 0 && (
        <Empty
          title="Nothing is measured on a card yet."
          text="A hold point of a package can say what it measures: each reading is then kept here."
        />
      )}
      {bike.trends.map((trend) => (
        <TrendOf
          key={`${trend.measures} ${trend.carburettor} ${trend.station}`}
          trend={trend}
          carburettors={bike.carburettors}
          base={`/s/${slug}`}
          locale={locale}
          zone={zone}
          units={units}
          over={over}
        />
      ))}
    </>
  );
}
