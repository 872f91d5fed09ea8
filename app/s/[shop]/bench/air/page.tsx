import { PageHead } from "@/app/_ui/PageHead";
import type { Spot } from "@/lib/domain/air/climate";
import { weatherSpot } from "@/lib/domain/air/places";
import { airWith } from "@/lib/domain/air/typed";
import { typicalWeather } from "@/lib/domain/air/typical";
import { type Air, airFromReading } from "@/lib/domain/air/weather";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn } from "@/lib/domain/schedule/days";
import { open } from "@/lib/gate/open";
import { type BenchValues, benchQuery, fieldText, systemOf } from "@/lib/schemas/bench";
import { AIR_FIELDS } from "@/lib/schemas/benchFields";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { shownText } from "../shown";
import { workBench } from "../workBench";
import { AirAnswer } from "./AirAnswer";

type Search = Promise<Record<string, string | string[] | undefined>>;

/** Names of the domain's readings as this page's fields. */
const FIELD: Readonly<Record<string, string>> = { stationPa: "station", qnhPa: "qnh", altitudeM: "altitude" };

function airOf(v: BenchValues<typeof AIR_FIELDS>, spot: Spot): Air {
  if (v.from === "typical")
    return airWith(typicalWeather(Number(v.month), spot, v.altitude), {
      pressurePa: v.station === null ? null : v.station * 100,
      temperatureC: v.temperature,
      humidity: v.humidity === null ? null : v.humidity / 100,
    });
  if (v.temperature === null)
    throw new Refusal("No temperature is given.", "Enter the temperature of the air.", {
      temperature: "Enter the temperature.",
    });
  const hundred = (value: number | null) => (value === null ? undefined : value * 100);
  try {
    return airFromReading({
      stationPa: hundred(v.station),
      qnhPa: hundred(v.qnh),
      altitudeM: v.altitude,
      temperatureC: v.temperature,
      humidity: v.humidity === null ? undefined : v.humidity / 100,
      dewPointC: v.dewPoint ?? undefined,
    });
  } catch (cause) {
    if (!(cause instanceof Refusal)) throw cause;
    throw new Refusal(
      cause.message,
      cause.remedy,
      Object.fromEntries(Object.entries(cause.fields).map(([name, text]) => [FIELD[name] ?? name, text])),
    );
  }
}

export default async function AirPage({
  params,
  searchParams,
}: {
  params: Promise<{ shop: string }>;
  searchParams: Search;
}) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { locale, altitudeM, benchTemperatureC, zone } = shop.settings;
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const today = {
    from: "typical",
    altitude: fieldText(AIR_FIELDS.altitude, altitudeM, system),
    month: String(Number(dayIn(zone, shop.now).slice(5, 7))),
  };
  const query = Object.keys(asked).length > 0 ? asked : today;
  const work = workBench(AIR_FIELDS, system, query, (values) => airOf(values, weatherSpot(shop.settings)));
  const bench = placeAir({ altitudeM, temperatureC: benchTemperatureC, humidity: null });
  const benchName = `a bench day (${shownText("altitude", altitudeM, system, locale)}, ${shownText("airTemperature", benchTemperatureC + 273.15, system, locale)})`;
  return (
    <>
      <PageHead of={shop.name} title="Air now" sub="Bench" />
      <BenchColumns
        trouble={work.trouble}
        form={
          <BenchForm
            path={`/s/${slug}/bench/air`}
            specs={AIR_FIELDS}
            query={query}
            problems={work.problems}
            system={system}
            groups={[
              { title: "Where", names: ["altitude", "from"] },
              {
                title: "Read on the spot",
                names: ["qnh", "station", "temperature", "humidity", "dewPoint"],
                after: (
                  <p className="text-[14px] text-soft">One pressure and one of humidity or dew point.</p>
                ),
              },
              { title: "Or typical", names: ["month"] },
            ]}
          />
        }
      >
        {work.answer && (
          <AirAnswer air={work.answer} bench={bench} benchName={benchName} locale={locale} system={system} />
        )}
      </BenchColumns>
    </>
  );
}
