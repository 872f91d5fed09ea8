import { Facts } from "@/app/_ui/Facts";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { PageHead } from "@/app/_ui/PageHead";
import { Section } from "@/app/_ui/Section";
import { figureText } from "@/app/_ui/format";
import { dayIn } from "@/lib/data/quotes/days";
import { typicalWeather } from "@/lib/domain/air/typical";
import { type Air, airFromReading, relativeAirDensity, STANDARD_BENCH_AIR } from "@/lib/domain/air/weather";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { Refusal } from "@/lib/domain/refusal";
import { open } from "@/lib/gate/open";
import { type BenchValues, benchQuery, fieldText, systemOf } from "@/lib/schemas/bench";
import { AIR_FIELDS } from "@/lib/schemas/benchFields";
import { BenchColumns } from "../BenchColumns";
import { BenchForm } from "../BenchForm";
import { shownText } from "../shown";
import { workBench } from "../workBench";

type Search = Promise<Record<string, string | string[] | undefined>>;

/** Names of the domain's readings as this page's fields. */
const FIELD: Readonly<Record<string, string>> = { stationPa: "station", qnhPa: "qnh", altitudeM: "altitude" };

function airOf(v: BenchValues<typeof AIR_FIELDS>, south: boolean): Air {
  if (v.from === "typical") return typicalWeather(Number(v.month), south ? "south" : "north", v.altitude);
  if (v.temperature === null) throw new Refusal("No temperature is given.", "Enter the temperature of the air.", { temperature: "Enter the temperature." });
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
    throw new Refusal(cause.message, cause.remedy, Object.fromEntries(Object.entries(cause.fields).map(([name, text]) => [FIELD[name] ?? name, text])));
  }
}

export default async function AirPage({ params, searchParams }: { params: Promise<{ shop: string }>; searchParams: Search }) {
  const { shop: slug } = await params;
  const shop = await open("bench.use", slug);
  const { locale, altitudeM, latitudeSouth, benchTemperatureC, zone } = shop.settings;
  const system = systemOf(shop.settings.units);
  const asked = benchQuery(await searchParams);
  const today = { from: "typical", altitude: fieldText(AIR_FIELDS.altitude, altitudeM, system), month: String(Number(dayIn(zone, shop.now).slice(5, 7))) };
  const query = Object.keys(asked).length > 0 ? asked : today;
  const work = workBench(AIR_FIELDS, system, query, (values) => airOf(values, latitudeSouth));
  const bench = placeAir({ altitudeM, temperatureC: benchTemperatureC, humidity: null });
  const benchName = `a bench day (${shownText("altitude", altitudeM, system, locale)}, ${shownText("airTemperature", benchTemperatureC + 273.15, system, locale)})`;
  return (
    <>
      <PageHead title="Air now" sub="Bench" />
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
              { title: "Read on the spot", names: ["qnh", "station", "temperature", "humidity", "dewPoint"], after: <p className="text-[14px] text-soft">One pressure and one of humidity or dew point.</p> },
              { title: "Or typical", names: ["month"] },
            ]}
          />
        }
      >
        {work.answer && <AirAnswer air={work.answer} bench={bench} benchName={benchName} locale={locale} system={system} />}
      </BenchColumns>
    </>
  );
}

function AirAnswer({ air, bench, benchName, locale, system }: { air: Air; bench: Air; benchName: string; locale: string; system: ReturnType<typeof systemOf> }) {
  const open = (name: string, text: string, because = air.because, firmness = air.firmness) => (
    <Opens name={name} because={because} firmness={firmness}>
      {text}
    </Opens>
  );
  const against = (to: Air, name: string) => {
    const ratio = relativeAirDensity(air, to);
    const why = [...air.because, { fact: `Against ${name}`, from: "dry-air density, CIPM-2007", effect: `${figureText(ratio * 100, locale, 1)} %` }];
    return { key: name, name: `Oxygen against ${name}`, value: open(`Against ${name}`, `${figureText(ratio * 100, locale, 1)} %`, why) };
  };
  return (
    <Section title={air.assumed ? "Air, typical and not measured" : "Air, as read"}>
      <Facts
        rows={[
          { name: "Density", value: open("Density", `${figureText(air.densityKgM3, locale, 4)} kg/m³`) },
          { name: "Dry part of it", value: open("Dry part", `${figureText((air.dryDensityKgM3 / air.densityKgM3) * 100, locale, 2)} %`) },
          { name: "Density altitude", value: open("Density altitude", shownText("altitude", air.densityAltitudeM, system, locale)) },
          against(bench, benchName),
          against(STANDARD_BENCH_AIR, "20 °C, dry, 1013.25 hPa"),
          { name: "Station pressure", value: shownText("airPressure", air.pressurePa, system, locale), mono: true },
          { name: "Temperature", value: shownText("airTemperature", air.temperatureK, system, locale), mono: true },
          { name: "Relative humidity", value: `${figureText(air.humidity * 100, locale, 0)} %`, mono: true },
        ]}
      />
      {air.assumed && (
        <Note title="Nobody measured this air.">Read pressure, temperature and humidity on the day before you trust a jet to it.</Note>
      )}
      {!air.certified && (
        <Note title="Outside 600 to 1100 hPa or 15 to 27 °C.">The density formula is used beyond the range it is certified for; expect a few parts in ten thousand.</Note>
      )}
    </Section>
  );
}
