import { PageHead } from "@/app/_ui/PageHead";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { pickBikes } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { breathingBench } from "@/lib/domain/bench/breathingBench";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { BREATHING_FIELDS } from "@/lib/schemas/benchPartFields";
import { askedBike, onlyBike } from "../askedBike";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { BikeChoice } from "../BikeChoice";
import { workBench } from "../workBench";
import { BreathingAnswer } from "./BreathingAnswer";
import { breathingExample } from "./example";

export default async function Breathing({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { altitudeM, benchTemperatureC } = shop.settings;
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const id = askedBike(asked);
  const [bike, bikes] = await Promise.all([
    id === null ? null : benchBike(shop, id),
    pickBikes(shop, "", MOST_NEWEST),
  ]);
  const query = onlyBike(asked) ? breathingExample(bike, system) : asked;
  const air = placeAir({ altitudeM, temperatureC: benchTemperatureC, humidity: null });
  const read = <T,>(value: T) => ({ value, how: "read" as const });
  const work = workBench(BREATHING_FIELDS, system, query, (v) =>
    breathingBench({
      card: {
        ...bike?.card,
        carburettorType: read(v.type),
        jetConvention: read(v.convention),
        ventedTo: read(v.vented),
      },
      displacementCc: v.displacement,
      carburettors: v.carburettors,
      ratedRpm: v.ratedRpm,
      mainJet: v.mainJet,
      snorkelMm: v.snorkel,
      snorkelHoleMm: v.snorkelHole,
      before: { snorkelIn: true, openingMm: v.opening, weldMm: v.weld },
      after: { snorkelIn: v.snorkelAfter === "in", openingMm: v.openingAfter, weldMm: v.weldAfter },
      filterLossPa: v.filterLoss,
      headerMm: v.header,
      air,
    }),
  );
  return (
    <>
      <PageHead of={shop.name} title="Airbox and header flow" sub="Bench" />
      <BikeChoice
        path={`/s/${slug}/bench/breathing`}
        slug={slug}
        newest={bikes.rows}
        bike={bike}
        fills="what its model card knows is filled in"
      />
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={`/s/${slug}/bench/breathing`}
            specs={BREATHING_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            hidden={bike ? { bike: String(bike.id) } : undefined}
            groups={[
              {
                title: "Engine and carburettor",
                names: [
                  "displacement",
                  "carburettors",
                  "ratedRpm",
                  "type",
                  "mainJet",
                  "convention",
                  "vented",
                ],
              },
              {
                title: "Airbox",
                names: ["snorkel", "snorkelHole", "snorkelAfter", "opening", "openingAfter", "filterLoss"],
              },
              { title: "Header weld", names: ["header", "weld", "weldAfter"] },
            ]}
          />
        }
      >
        {work.answer && (
          <BreathingAnswer
            bench={work.answer}
            weldAfter={work.values?.weldAfter ?? 0}
            locale={shop.settings.locale}
          />
        )}
      </BenchColumns>
    </>
  );
}
