import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { type Air, relativeAirDensity, STANDARD_BENCH_AIR } from "@/lib/domain/air/weather";
import { relativePhi } from "@/lib/domain/tuning/fuels";
import type { systemOf } from "@/lib/schemas/bench";
import { shownText } from "../shown";

/** Density, dry part and density altitude, against a bench day and against standard air. */
export function AirAnswer({
  air,
  bench,
  benchName,
  locale,
  system,
}: {
  air: Air;
  bench: Air;
  benchName: string;
  locale: string;
  system: ReturnType<typeof systemOf>;
}) {
  const open = (name: string, text: string, because = air.because, firmness = air.firmness) => (
    <Opens name={name} because={because} firmness={firmness} className="whitespace-nowrap">
      {text}
    </Opens>
  );
  const against = (to: Air, name: string) => {
    const ratio = relativeAirDensity(air, to);
    const why = [
      ...air.because,
      {
        fact: `Against ${name}`,
        from: "dry-air density, CIPM-2007",
        effect: `${figureText(ratio * 100, locale, 1)} %`,
      },
    ];
    return {
      key: name,
      name: `Oxygen against ${name}`,
      value: open(`Against ${name}`, `${figureText(ratio * 100, locale, 1)} %`, why),
    };
  };
  return (
    <Section title={air.assumed ? "Air, typical and not measured" : "Air, as read"}>
      <Facts
        rows={[
          { name: "Density", value: open("Density", `${figureText(air.densityKgM3, locale, 4)} kg/m³`) },
          {
            name: "Dry part of it",
            value: open(
              "Dry part",
              `${figureText((air.dryDensityKgM3 / air.densityKgM3) * 100, locale, 2)} %`,
            ),
          },
          {
            name: "Density altitude",
            value: open("Density altitude", shownText("altitude", air.densityAltitudeM, system, locale)),
          },
          against(bench, benchName),
          against(STANDARD_BENCH_AIR, "20 °C, dry, 1013.25 hPa"),
          richness(air, bench, benchName, locale),
          {
            name: "Station pressure",
            value: shownText("airPressure", air.pressurePa, system, locale),
            mono: true,
          },
          {
            name: "Temperature",
            value: shownText("airTemperature", air.temperatureK, system, locale),
            mono: true,
          },
          { name: "Relative humidity", value: `${figureText(air.humidity * 100, locale, 0)} %`, mono: true },
        ]}
      />
      {air.assumed && (
        <Note title="Nobody measured this air.">
          Read pressure, temperature and humidity on the day before you trust a jet to it.
        </Note>
      )}
      {!air.certified && (
        <Note title="Outside 600 to 1100 hPa or 15 to 27 °C.">
          The density formula is used beyond the range it is certified for; expect a few parts in ten
          thousand.
        </Note>
      )}
    </Section>
  );
}

/** The equivalence ratio with the same jets against a bench day, on its own: fuel as warm as the air, petrol with 10 % ethanol. */
function richness(air: Air, bench: Air, name: string, locale: string) {
  const state = (a: Air) => ({ ...a, fuel: "E10", fuelTemperatureK: a.temperatureK });
  const phi = relativePhi(state(air), state(bench));
  const text = `${figureText(Math.abs(phi - 1) * 100, locale, 1)} % ${phi < 1 ? "leaner" : "richer"}`;
  return {
    key: "phi",
    name: `Mixture with the same jets, against ${name}`,
    value: (
      <Opens
        name="Mixture with the same jets"
        because={[
          ...air.because,
          {
            fact: "Stoichiometric ratio x root of fuel and moist-air density, over dry-air density",
            from: "square-root law, Heywood 7.2",
            effect: `φ x ${phi.toFixed(4)}`,
            firmness: "firm",
          },
          { fact: "Fuel as warm as the air", from: "assumed", firmness: "starting point" },
        ]}
        firmness={air.firmness}
      >
        {text}
      </Opens>
    ),
  };
}
