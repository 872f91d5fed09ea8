import { LinkButton } from "@/app/_ui/LinkButton";
import { PageHead } from "@/app/_ui/PageHead";
import { pickBikes, pickedBike } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { shownUnit } from "@/lib/domain/units/systems";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { askedBike } from "../askedBike";
import { exampleLog } from "./example";
import { LambdaForm } from "./LambdaForm";

export default async function Lambda({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const asked = benchQuery(await searchParams);
  const system = systemOf(shop.settings.units);
  const bike = askedBike(asked);
  const [bikes, chosen] = await Promise.all([pickBikes(shop, "", MOST_NEWEST), pickedBike(shop, bike)]);
  const example = new URLSearchParams({ ...(bike ? { bike: String(bike) } : {}), example: "1" });
  return (
    <>
      <PageHead
        of={shop.name}
        title="Lambda log"
        sub="Bench"
        actions={<LinkButton href={`/s/${slug}/bench/lambda?${example}`}>Fill in an example</LinkButton>}
      />
      <LambdaForm
        key={asked.example ?? ""}
        slug={slug}
        initial={asked.example ? exampleLog() : ""}
        locale={shop.settings.locale}
        bikes={bikes.rows}
        bike={chosen}
        mayKeep={shop.can("card.write")}
        units={{
          altitudeUnit: shownUnit(system, "altitude").unit,
          temperatureUnit: shownUnit(system, "airTemperature").unit,
        }}
      />
    </>
  );
}
