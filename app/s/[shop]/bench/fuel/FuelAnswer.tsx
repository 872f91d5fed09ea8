import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import { Note } from "@/app/_ui/Note";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { State } from "@/app/_ui/State";
import type { FlowFound, FlowState, FuelNeed } from "@/lib/domain/bench/fuelFlow";
import type { Interval } from "@/lib/domain/tuning/severity";
import type { UnitSystem } from "@/lib/domain/units/systems";
import { shownText } from "../shown";
import { Verify } from "../Verify";

interface Props {
  need: FuelNeed;
  withFilter: FlowFound;
  without: FlowFound | null;
  advice: { readonly share: number; readonly advice: string } | null;
  interval: Interval | null;
  locale: string;
  system: UnitSystem;
}

const LOOK: Readonly<
  Record<FlowState, { shape: "filled" | "circle" | "diamond"; tone: "pine" | "brass" | "oxide" }>
> = {
  enough: { shape: "filled", tone: "pine" },
  "just enough": { shape: "circle", tone: "brass" },
  "too little": { shape: "diamond", tone: "oxide" },
};

/** The need, the flow beside it with and without the filter, and how far apart the filters are cleaned. */
export function FuelAnswer({ need, withFilter, without, advice, interval, locale, system }: Props) {
  const ml = (value: number) => `${figureText(value, locale, 0)} ml/min`;
  const flow = (found: FlowFound) => (
    <>
      {ml(found.mlPerMinute)}{" "}
      <State {...LOOK[found.state]}>{`${found.state}, × ${figureText(found.ratio, locale, 2)}`}</State>
    </>
  );
  return (
    <>
      <Section title="Burnt at full load">
        <p className="text-[22px]">
          <Opens name="Fuel at full load" because={need.because} firmness={need.firmness}>
            {ml(need.needMl)}
          </Opens>
        </p>
        <p className="text-[15px] text-soft">{`${ml(need.lowMl)} to ${ml(need.highMl)} over the ranges it rests on.`}</p>
        <Verify />
      </Section>
      <Section title="What comes through the line">
        <Facts
          rows={[
            { name: "Filter in", value: flow(withFilter) },
            ...(without ? [{ name: "Filter out", value: flow(without) }] : []),
            ...(advice
              ? [
                  {
                    name: "Of the line's loss the filter has",
                    value: `${figureText(advice.share * 100, locale, 0)} %`,
                    mono: true,
                  },
                ]
              : []),
          ]}
        />
        {advice ? (
          <Note title="The filter">{advice.advice}</Note>
        ) : (
          <p className="text-soft">
            Try it with the filter out too: the two together tell what holds the fuel back.
          </p>
        )}
        <p className="mt-2 text-[14px] text-soft">
          Enough is half as much again as is burnt (common practice, no source).
        </p>
      </Section>
      {interval !== null && (
        <Section title="Filters, all at once">
          <p>
            Air filter, prefilter and breather filter every{" "}
            <span className="font-mono">{shownText("distance", interval.km * 1000, system, locale)}</span>.
          </p>
          <p className="text-[14px] text-soft">
            {interval.because.map(({ fact, from }) => `${fact} (${from}). `)}
            Slide guides and diaphragms wear sooner by about as much.
          </p>
        </Section>
      )}
    </>
  );
}
