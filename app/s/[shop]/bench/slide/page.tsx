import { PageHead } from "@/app/_ui/PageHead";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { pickBikes } from "@/lib/data/bikes/pick";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { slideBench } from "@/lib/domain/bench/slideBench";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { SLIDE_FIELDS } from "@/lib/schemas/benchPartFields";
import { askedBike, onlyBike } from "../askedBike";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { BikeChoice } from "../BikeChoice";
import { workBench } from "../workBench";
import { slideExample } from "./example";
import { SlideAnswer } from "./SlideAnswer";

export default async function Slide({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { locale, altitudeM, benchTemperatureC } = shop.settings;
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const id = askedBike(asked);
  const [bike, bikes] = await Promise.all([
    id === null ? null : benchBike(shop, id),
    pickBikes(shop, "", MOST_NEWEST),
  ]);
  const query = onlyBike(asked) ? slideExample(bike, system) : asked;
  const { densityKgM3 } = placeAir({ altitudeM, temperatureC: benchTemperatureC, humidity: null });
  const work = workBench(SLIDE_FIELDS, system, query, (v) =>
    slideBench({
      rateNPerM: v.rate,
      wireMm: v.wire,
      coilMm: v.coil,
      shearGPa: v.shear,
      coils: v.coils,
      coilsAfter: v.coilsAfter,
      freeMm: v.free,
      installedMm: v.installed,
      innerRateNPerM: v.innerRate,
      innerFreeMm: v.innerFree,
      boreMm: v.bore,
      diaphragmMm: v.diaphragm,
      massG: v.mass,
      holes: { count: v.holes, holeMm: v.hole },
      holesAfter: { count: v.holesAfter, holeMm: v.holeAfter },
      depressionPa: v.depression,
      densityKgM3,
    }),
  );
  return (
    <>
      <PageHead of={shop.name} title="Spring and lift holes" sub="Bench" />
      <BikeChoice
        path={`/s/${slug}/bench/slide`}
        slug={slug}
        newest={bikes.rows}
        bike={bike}
        fills="what its model card knows is filled in"
      />
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={`/s/${slug}/bench/slide`}
            specs={SLIDE_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            hidden={bike ? { bike: String(bike.id) } : undefined}
            groups={[
              {
                title: "Spring",
                names: [
                  "wire",
                  "coil",
                  "shear",
                  "rate",
                  "coils",
                  "coilsAfter",
                  "free",
                  "installed",
                  "innerRate",
                  "innerFree",
                ],
              },
              { title: "Slide", names: ["bore", "diaphragm", "mass", "depression"] },
              { title: "Lift holes", names: ["holes", "hole", "holesAfter", "holeAfter"] },
            ]}
          />
        }
      >
        {work.answer && <SlideAnswer bench={work.answer} locale={locale} />}
      </BenchColumns>
    </>
  );
}
