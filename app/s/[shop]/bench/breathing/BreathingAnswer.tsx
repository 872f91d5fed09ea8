import { Caution } from "@/app/_ui/Caution";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { BreathingBench, BreathingState, VentAnswer } from "@/lib/domain/bench/breathingTypes";
import { percentText } from "../shown";
import { BenchWarnings, Verify } from "../Verify";

const VENT_WORDS = { atmosphere: "vented to the open air", airbox: "vented to the airbox" } as const;

/** What freer breathing does to the airbox, the main jet and the header, with the cautions that belong to each. */
export function BreathingAnswer({
  bench,
  weldAfter,
  locale,
}: {
  bench: BreathingBench;
  weldAfter: number;
  locale: string;
}) {
  const n = (value: number, decimals: number) => figureText(value, locale, decimals);
  return (
    <>
      <Section title="What the main jet wants">
        {bench.vents.map((v) => (
          <Vent key={v.vented} vent={v} locale={locale} />
        ))}
        {bench.vents.length > 1 && (
          <p className="mb-2 text-[14px] text-soft">
            Where bowl and diaphragm are vented is not known, so both cases are shown: vented to the airbox,
            opening it hardly changes the signal. Look where the hose ends, then choose.
          </p>
        )}
        <Verify />
        <BenchWarnings warnings={bench.warnings} />
      </Section>
      <Section title={`Airbox at rated speed, ${n(bench.flowM3S * 1000, 1)} l/s`}>
        <Sides
          rows={[
            ["Effective opening, mm²", (s) => n(s.openMm2, 0)],
            ["Depression in the box, Pa", (s) => n(s.boxPa, 0)],
          ]}
          bench={bench}
        />
        <p className="text-[14px] text-soft">
          Openings add as area over the root of their loss: hole in a wall 2.91 (Idelchik), snorkel standing
          in 1.78 (Crane TP-410, not checked against the published text).
        </p>
        <Caution title="Keep the cut clear of the carburettor breather.">
          An opened airbox is louder and may breach type approval, emissions, noise and insurance terms: local
          law and its inspectors decide, not this sum.
        </Caution>
      </Section>
      <Section title="Header weld">
        <Sides rows={[["Loss of the weld, velocity heads", (s) => n(s.weldK, 3)]]} bench={bench} />
        <Caution title="About 1 mm of weld must stay.">
          {bench.thinWeld
            ? `${n(weldAfter, 1)} mm is too little: add weld outside first. `
            : "To go further, add weld outside first. "}
          Grind and weld away from fuel, with eyes, lungs and ears covered and the tank out of the room.
        </Caution>
      </Section>
    </>
  );
}

function Vent({ vent, locale }: { vent: VentAnswer; locale: string }) {
  const { main } = vent;
  if (!main) return <p>No main jet meets the target {VENT_WORDS[vent.vented]}: check the measures.</p>;
  const because = [
    ...main.because,
    {
      fact: `Exactly ${figureText(main.exact, locale, 1)} would be right`,
      from: "fuel model",
      effect: percentText(vent.areaChange, locale),
    },
    ...(main.runnerUp
      ? [{ fact: "Next best size", from: "usual half sizes", effect: String(main.runnerUp.size) }]
      : []),
    {
      fact: "Chance of running lean at full load",
      from: "lambda above 0.92",
      effect: `${Math.round(main.chosen.leanRisk * 100)} %`,
    },
  ];
  return (
    <p className="mb-1 flex flex-wrap items-baseline gap-x-3">
      <span className="text-[22px]">
        <Opens name={`Main jet, ${VENT_WORDS[vent.vented]}`} because={because} firmness={main.firmness}>
          {figureText(main.chosen.size, locale)}
        </Opens>
      </span>
      <span className="text-[15px] text-soft">
        {VENT_WORDS[vent.vented]}: jet area {percentText(vent.areaChange, locale)}
      </span>
    </p>
  );
}

function Sides({
  rows,
  bench,
}: {
  rows: readonly (readonly [string, (s: BreathingState) => string])[];
  bench: BreathingBench;
}) {
  return (
    <table className="mb-2 w-full max-w-[620px] border-collapse text-[15px]">
      <thead>
        <tr className="text-[13px] text-soft">
          <th scope="col" className="border-rule border-b py-1 text-start font-semibold">
            <span className="sr-only">What</span>
          </th>
          <th scope="col" className="border-rule border-b py-1 text-end font-semibold">
            As it is
          </th>
          <th scope="col" className="border-rule border-b py-1 text-end font-semibold">
            As changed
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, text]) => (
          <tr key={name} className="border-hair border-b">
            <th scope="row" className="py-1.5 text-start font-normal">
              {name}
            </th>
            <td className="py-1.5 text-end font-mono">{text(bench.before)}</td>
            <td className="py-1.5 text-end font-mono">{text(bench.after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
