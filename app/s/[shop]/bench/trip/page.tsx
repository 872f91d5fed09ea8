import { CONTROL, describedBy, FieldFrame } from "@/app/_ui/FieldFrame";
import { PageHead } from "@/app/_ui/PageHead";
import { fittedOn, jetFamilies, workTrip } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { pickBikes } from "@/lib/data/bikes/pick";
import { conditionsToday } from "@/lib/data/common/air";
import { MOST_NEWEST } from "@/lib/data/common/picks";
import { weatherSpot } from "@/lib/domain/air/places";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { TRIP_FIELDS } from "@/lib/schemas/benchFields";
import { askedBike, onlyBike } from "../askedBike";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { BikeChoice } from "../BikeChoice";
import { workBench } from "../workBench";
import { tripExample } from "./example";
import { Places } from "./Places";
import { PutOnSheet } from "./PutOnSheet";
import { TripAnswerView } from "./TripAnswerView";

export default async function Trip({
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
  const [bike, bikes, families] = await Promise.all([
    id === null ? null : benchBike(shop, id),
    pickBikes(shop, "", MOST_NEWEST),
    jetFamilies(shop),
  ]);
  const query = onlyBike(asked)
    ? tripExample({
        bike,
        families,
        altitudeM,
        temperatureC: benchTemperatureC,
        system,
        season: conditionsToday(shop.settings, shop.now).season,
      })
    : asked;
  const work = workBench(TRIP_FIELDS, system, query, (values) =>
    workTrip(values, bike, families, weatherSpot(shop.settings)),
  );
  const path = `/s/${slug}/bench/trip`;
  return (
    <>
      <PageHead of={shop.name} title="Jet for a trip" sub="Bench" />
      <BikeChoice
        path={path}
        slug={slug}
        newest={bikes.rows}
        bike={bike}
        fills="its jets, screw and model card are used"
      />
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={path}
            specs={TRIP_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            hidden={bike ? { bike: String(bike.id) } : undefined}
            groups={[
              {
                title: "Fitted",
                names: ["mainJet", "pilotJet", "screw", "convention"],
                after: (
                  <Drawer
                    families={families.map((f) => f.family)}
                    chosen={query.mainFamily ?? ""}
                    problem={work.problems.mainFamily}
                  />
                ),
              },
              { title: "Here", names: ["hereAltitude", "hereTemperature"] },
              {
                title: "There",
                names: ["lowAltitude", "highAltitude", "season", "coldest", "warmest", "humidity"],
              },
            ]}
          />
        }
      >
        {work.answer && work.values && (
          <>
            <TripAnswerView
              trip={work.answer}
              fitted={work.values.mainJet}
              calibrated={bike?.calibration ?? null}
              locale={locale}
              system={system}
            />
            {bike?.card.carburettorType?.value !== "mechanical" && (
              <Places trip={work.answer} settings={fittedOn(bike, work.values)} locale={locale} />
            )}
            {bike && shop.can("sheet.write") && (
              <PutOnSheet slug={slug} bikeId={bike.id} query={query} size={work.answer.chosen.size} />
            )}
          </>
        )}
      </BenchColumns>
    </>
  );
}

const DRAWER_HINT = "What the drawer has is taken first.";

function Drawer({
  families,
  chosen,
  problem,
}: {
  families: readonly string[];
  chosen: string;
  problem: string | undefined;
}) {
  return (
    <FieldFrame id="bench-mainFamily" label={TRIP_FIELDS.mainFamily.label} hint={DRAWER_HINT} error={problem}>
      <select
        id="bench-mainFamily"
        name="mainFamily"
        defaultValue={chosen}
        aria-invalid={problem ? true : undefined}
        aria-describedby={describedBy("bench-mainFamily", DRAWER_HINT, problem)}
        className={CONTROL}
      >
        <option value="">No drawer: the usual half sizes</option>
        {families.map((family) => (
          <option key={family} value={family}>
            {family}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}
