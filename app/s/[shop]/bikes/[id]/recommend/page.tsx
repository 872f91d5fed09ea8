import { notFound } from "next/navigation";
import { Form } from "@/app/_ui/Form";
import { Link } from "@/app/_ui/Link";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { SubmitButton } from "@/app/_ui/SubmitButton";
import { workRecommendation } from "@/lib/data/bench/recommend";
import { jetFamilies } from "@/lib/data/bench/trip";
import { benchBike } from "@/lib/data/bikes/benchBike";
import { recallLike } from "@/lib/data/figures/recall";
import { openIntake } from "@/lib/data/intakes/get";
import { shimsInDrawer } from "@/lib/data/jobs/stepTargets";
import { needlesOnHand } from "@/lib/data/stock/needles";
import { sameThreadFor } from "@/lib/data/stock/sameThread";
import { weatherSpot } from "@/lib/domain/air/places";
import { dayIn } from "@/lib/domain/schedule/days";
import { pathId } from "@/lib/gate/ids";
import { open } from "@/lib/gate/open";
import { benchQuery, systemOf } from "@/lib/schemas/bench";
import { recallFilter } from "@/lib/schemas/recall";
import { RECOMMEND_FIELDS } from "@/lib/schemas/recommendFields";
import { SameThread } from "../../../_parts/SameThread";
import { Recalled } from "../../../_recall/Recalled";
import { BenchColumns } from "../../../bench/BenchColumns";
import { BenchForm } from "../../../bench/BenchForm";
import { workBench } from "../../../bench/workBench";
import { Answer } from "./Answer";
import { putRecommendation } from "./actions";
import { Families } from "./Families";
import { startOf } from "./start";

export default async function Recommend({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string; id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { shop: slug, id } = await params;
  const shop = await open("bench.use", slug);
  const [bike, intake] = await Promise.all([benchBike(shop, pathId(id)), openIntake(shop.read, pathId(id))]);
  if (!bike) notFound();
  const { altitudeM, locale, zone } = shop.settings;
  const system = systemOf(shop.settings.units);
  const [families, shims, needles] = await Promise.all([
    jetFamilies(shop),
    shimsInDrawer(shop.read),
    needlesOnHand(shop),
  ]);
  const { recall: filter, ...typed } = await searchParams;
  const recall = await recallLike(shop, bike.id, recallFilter(filter));
  const asked = benchQuery(typed);
  const query =
    Object.keys(asked).length > 0
      ? asked
      : startOf(bike, families, { altitudeM, month: Number(dayIn(zone, shop.now).slice(5, 7)), system });
  const work = workBench(RECOMMEND_FIELDS, system, query, (values) =>
    workRecommendation(values, bike, families, weatherSpot(shop.settings), shims, needles),
  );
  const jet = work.answer?.sheet.carburettors[0]?.mainJet;
  const needed = bike.carburettors.length;
  const instead =
    jet && !jet.inDrawer && query.mainFamily
      ? await sameThreadFor(shop.read, [
          {
            key: "main",
            partId: null,
            family: query.mainFamily,
            size: jet.chosen.size,
            neededMilli: needed * 1000,
          },
        ])
      : {};
  const names = families.map((f) => f.family);
  const path = `/s/${slug}/bikes/${bike.id}/recommend`;
  const filled = Object.entries(query).filter(([, text]) => text !== "");
  const drawer = (name: "mainFamily" | "pilotFamily") => (
    <Families name={name} label={RECOMMEND_FIELDS[name].label} families={names} chosen={query[name] ?? ""} />
  );
  return (
    <>
      <PageHead
        of={shop.name}
        title="Recommended setting"
        sub={
          <Link href={`/s/${slug}/bikes/${bike.id}`} className="text-brass underline underline-offset-4">
            {bike.name}
          </Link>
        }
      />
      <p className="mb-4 text-[15px] text-soft">
        From what is fitted {bike.settingsFrom ? "by its newest sheet" : "as delivered: no sheet says"}, taken
        as right in {Math.round(bike.baseline.temperatureK - 273.15)} °C and{" "}
        {Math.round(bike.baseline.pressurePa / 100)} hPa
        {(intake?.marks.length ?? 0) > 0 && ", but for what was felt on its intake"}.
      </p>
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={path}
            specs={RECOMMEND_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            groups={[
              {
                title: "Changed on the bike",
                names: [
                  "airbox",
                  "snorkel",
                  "weld",
                  "holes",
                  "hole",
                  "spring",
                  "coils",
                  "fuel",
                  "fuelTemperature",
                ],
              },
              {
                title: "To work out",
                names: ["work"],
                after: (
                  <>
                    {drawer("mainFamily")}
                    {drawer("pilotFamily")}
                  </>
                ),
              },
              { title: "Filling over speed", names: ["pull"] },
              { title: "For which air", names: ["from", "altitude"] },
              { title: "Typical of a month", names: ["month"] },
              { title: "Or read on the spot", names: ["temperature", "humidity", "station", "qnh"] },
              { title: "Or a range", names: ["highAltitude", "season", "coldest", "warmest"] },
            ]}
          />
        }
      >
        {work.answer && (
          <Answer
            bike={bike}
            answer={work.answer}
            drawer={names.includes(query.mainFamily ?? "")}
            instead={<SameThread jets={instead.main} slug={slug} locale={locale} />}
            shims={shims}
            felt={intake?.marks ?? []}
            why={(of) =>
              `/api${path}?${new URLSearchParams({ ...Object.fromEntries(filled), of }).toString()}`
            }
            locale={locale}
          />
        )}
        <Recalled recall={recall} slug={slug} locale={locale} zone={zone} here={path} query={asked} />
        {work.answer && shop.can("sheet.write") && (
          <Section title="Keep it" className="print:hidden">
            <Form
              action={putRecommendation}
              shop={slug}
              hidden={{ address: new URLSearchParams(query).toString(), bikeId: String(bike.id) }}
              label="Put on the target sheet"
            >
              <SubmitButton>Put on the target sheet</SubmitButton>
            </Form>
          </Section>
        )}
      </BenchColumns>
    </>
  );
}
