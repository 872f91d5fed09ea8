import { Caution } from "@/app/_ui/Caution";
import { DynoChart } from "@/app/_ui/DynoChart";
import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { DynoReading, DynoRun } from "@/lib/domain/bench/dynoTypes";
import type { GainTest } from "@/lib/domain/tuning/gainTest";
import { fromSi } from "@/lib/domain/units/convert";
import { UNITS } from "@/lib/domain/units/units";
import { percentText } from "../shown";

/** Mean gain over the band with its noise, the curves, and every run with its correction. */
export function DynoAnswer({
  reading,
  locale,
  unit,
}: {
  reading: DynoReading;
  locale: string;
  unit: string;
}) {
  const { comparison: c, runs } = reading;
  const torque = unit === "lbfft" ? "lbfft" : "Nm";
  const shown = (values: readonly number[]) => values.map((v) => fromSi(v, torque));
  const band = `${c.rpm[0]} to ${c.rpm.at(-1)} rpm`;
  const because = [
    {
      fact: `Mean of after over before at ${c.rpm.length} engine speeds, ${band}`,
      from: "every run on one grid of engine speeds",
      effect: percentText(c.meanGain, locale),
    },
    { fact: "Area under torque over the band", from: "same grid", effect: percentText(c.areaGain, locale) },
    ...(c.test === null
      ? [{ fact: "Noise not known", from: "a side has a single run, or its runs are copies" }]
      : [
          {
            fact: "Noise of the repeats, one sigma",
            from: "spread of the runs' own means",
            effect: `± ${figureText(c.test.noise * 100, locale, 1)} %`,
          },
          {
            fact: `Chance of this much where nothing changed`,
            from: `Welch's t, ${c.test.freedom} degrees of freedom`,
            effect: `${figureText(c.test.chance * 100, locale, 1)} %`,
          },
        ]),
  ];
  return (
    <>
      <Section
        title={`Mean gain, ${band}, ${reading.standard === "none" ? "as it stands in the file" : `corrected to ${reading.standard}`}`}
      >
        <p className="text-[26px]">
          <Opens
            name="Mean gain"
            because={because}
            firmness={c.test?.beyondNoise ? "firm" : "starting point"}
          >
            {percentText(c.meanGain, locale)}
          </Opens>{" "}
          <span className="text-[15px] text-soft">{verdict(c.test, locale)}</span>
        </p>
        <Note>
          Never promise 10 %: five to eight are what freer breathing explains on a healthy single (common
          practice). A peak alone says little; look at the band that is ridden.
        </Note>
      </Section>
      <Section title="Before and after">
        <DynoChart
          rpm={c.rpm}
          before={shown(c.beforeNm)}
          after={shown(c.afterNm)}
          gain={c.gain}
          margin={c.test === null ? null : (c.test.high - c.test.low) / 2}
          unit={UNITS[torque].sign}
          locale={locale}
        />
      </Section>
      <Section title="Runs">
        <Runs runs={runs} locale={locale} />
        {runs.some((run) => !run.allowed) && (
          <Note title="The standard does not allow correcting this far.">
            State the air of the run with its power.
          </Note>
        )}
        <Caution title="Exhaust gas and a spinning wheel.">
          Extract the exhaust, guard wheel and chain, strap the bike down, nobody beside it.
        </Caution>
      </Section>
    </>
  );
}

function verdict(test: GainTest | null, locale: string): string {
  if (test === null) return "noise not known: one run on a side says nothing of chance. Repeat it.";
  const range = `${percentText(test.low, locale)} to ${percentText(test.high, locale)} with 95 % confidence`;
  if (test.beyondNoise) return `${range}: more than chance`;
  if (test.morePulls === null)
    return `${range}: within what repeats alone would show, and too small to settle by more runs`;
  const runs = test.morePulls === 1 ? "one more run" : `${test.morePulls} more runs`;
  return `${range}: within what repeats alone would show. If it is real, about ${runs} on each side would settle it`;
}

function Runs({ runs, locale }: { runs: readonly DynoRun[]; locale: string }) {
  const lambda = runs.some((run) => run.lambda !== null);
  return (
    <table className="w-full border-collapse text-[15px]">
      <thead>
        <tr className="text-[13px] text-soft">
          {["Run", "Side", "Rows", "Factor", ...(lambda ? ["Mean λ"] : [])].map((name) => (
            <th
              key={name}
              scope="col"
              className="border-rule border-b py-1 pl-3 text-end font-semibold first:pl-0 first:text-start"
            >
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {runs.map((run) => (
          <tr key={run.run} className="border-hair border-b">
            <th scope="row" className="py-1.5 text-start font-normal">
              {run.run || "(no name)"}
            </th>
            <td className="py-1.5 pl-3 text-end">{run.side}</td>
            <td className="py-1.5 pl-3 text-end font-mono">{run.rows}</td>
            <td className="py-1.5 pl-3 text-end">
              <Opens name={`Factor of ${run.run || "the run"}`} because={run.because} firmness="firm">
                {figureText(run.factor, locale, 4)}
              </Opens>
            </td>
            {lambda && (
              <td className="py-1.5 pl-3 text-end font-mono">
                {run.lambda === null ? "–" : figureText(run.lambda, locale, 2)}
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
