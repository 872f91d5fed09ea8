import { PageHead } from "@/app/_ui/PageHead";
import { severitiesToChoose } from "@/lib/data/shop/severities";
import { filterAdvice, flowFound, fuelNeed } from "@/lib/domain/bench/fuelFlow";
import { Refusal } from "@/lib/domain/refusal";
import { intervalFor, type Severity } from "@/lib/domain/tuning/severity";
import { open } from "@/lib/gate/open";
import { type BenchValues, benchQuery, systemOf } from "@/lib/schemas/bench";
import { fuelFields } from "@/lib/schemas/benchFuelFields";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { workBench } from "../workBench";
import { FuelAnswer } from "./FuelAnswer";

interface Props {
  params: Promise<{ shop: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}

const EXAMPLE = {
  power: "30",
  powerUnit: "kW",
  ml: "400",
  seconds: "60",
  interval: "6000",
  intervalUnit: "km",
};

function answerOf(v: BenchValues<ReturnType<typeof fuelFields>>, uses: readonly Severity[]) {
  const need = fuelNeed(v.power);
  const withFilter = flowFound({ ml: v.ml, seconds: v.seconds }, need);
  if ((v.mlWithout === null) !== (v.secondsWithout === null))
    throw new Refusal("The test without the filter is half told.", "Enter both, or leave both empty.", {
      [v.mlWithout === null ? "mlWithout" : "secondsWithout"]: "Enter this too, or empty the other.",
    });
  const without =
    v.mlWithout === null || v.secondsWithout === null
      ? null
      : flowFound({ ml: v.mlWithout, seconds: v.secondsWithout }, need);
  return {
    need,
    withFilter,
    without,
    advice: without ? filterAdvice(withFilter, without) : null,
    interval: v.interval === null ? null : intervalFor(v.interval, uses[Number(v.use) - 1] ?? null),
  };
}

/** What comes through the fuel line beside what the engine burns at full load, and what the filter has to do with it. */
export default async function FuelPage({ params, searchParams }: Props) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const query = Object.keys(asked).length > 0 ? asked : EXAMPLE;
  const uses = await severitiesToChoose(shop);
  const fields = fuelFields(uses);
  const work = workBench(fields, system, query, (values) => answerOf(values, uses));
  return (
    <>
      <PageHead of={shop.name} title="Fuel flow and filters" sub="Bench" />
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={`/s/${slug}/bench/fuel`}
            specs={fields}
            query={query}
            problems={work.problems}
            system={system}
            groups={[
              { title: "Engine", names: ["power"] },
              {
                title: "Caught at the float valve's end of the hose",
                names: ["ml", "seconds", "mlWithout", "secondsWithout"],
                after: (
                  <p className="text-[14px] text-soft">
                    Fuel vapour: outside, engine cold, no flame or spark, the can earthed, a lid on it. Tank
                    half full, cap on.
                  </p>
                ),
              },
              { title: "Cleaning", names: ["interval", "use"] },
            ]}
          />
        }
      >
        {work.answer && <FuelAnswer {...work.answer} locale={shop.settings.locale} system={system} />}
      </BenchColumns>
    </>
  );
}
