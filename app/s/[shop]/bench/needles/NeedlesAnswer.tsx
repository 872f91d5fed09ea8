import { figureText } from "@/app/_ui/format";
import { LineChart } from "@/app/_ui/LineChart";
import { NeedleAndJet } from "@/app/_ui/NeedleAndJet";
import { Section } from "@/app/_ui/Section";
import type { PairInput, PairPoint } from "@/lib/domain/bench/needlePair";
import { percentText } from "../shown";
import { Verify } from "../Verify";
import { drawnNeedle } from "./pair";

/** Two needles to scale at one lift, their open ring over lift, and the fuel of one against the other. */
export function NeedlesAnswer({
  pair,
  at,
  points,
  inJet,
  locale,
}: {
  pair: PairInput;
  at: number;
  points: readonly PairPoint[];
  inJet: { a: number; b: number };
  locale: string;
}) {
  const over = (pick: (p: PairPoint) => number) => points.map((p) => ({ x: p.liftMm, y: pick(p) }));
  const mark = { x: at, name: `${figureText(at, locale, 1)} mm` };
  const shown = points.filter((_, i) => i % 4 === 0);
  return (
    <>
      <Section title={`In the jet at ${figureText(at, locale, 1)} mm lift, to scale`}>
        <div className="max-w-[420px]">
          <NeedleAndJet
            needleJetMm={pair.needleJetMm}
            liftMm={at}
            locale={locale}
            needles={[
              drawnNeedle("first", pair, "a", at, inJet.a),
              drawnNeedle("second", pair, "b", at, inJet.b),
            ]}
          />
        </div>
      </Section>
      <Section title="Open ring over lift, mm²">
        <LineChart
          title="Open ring between needle and needle jet over slide lift"
          description="The area that fuel passes round each needle, from closed to full lift."
          xName="lift, mm"
          yName="mm²"
          decimals={3}
          mark={mark}
          locale={locale}
          lines={[
            { name: "first needle", tone: "soft", dashed: true, points: over((p) => p.a.ringMm2) },
            { name: "second needle", tone: "brass", points: over((p) => p.b.ringMm2) },
          ]}
        />
      </Section>
      <Section title="Fuel of the second against the first">
        <p className="mb-2 max-w-prose text-[14px] text-soft">
          Ring and main jet {pair.mainJet} in series, at the same signal. Where the needle decides, the ring's
          ratio is felt; towards full lift the main jet takes over.
        </p>
        <table className="w-full max-w-[620px] border-collapse text-[15px]">
          <thead>
            <tr className="text-[13px] text-soft">
              {["Lift, mm", "First, mm²", "Second, mm²", "Fuel"].map((name) => (
                <th key={name} scope="col" className="border-rule border-b py-1 text-end font-semibold">
                  {name}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {shown.map((p) => (
              <tr key={p.liftMm} className="border-hair border-b font-mono">
                <th scope="row" className="py-1.5 text-end font-normal">
                  {figureText(p.liftMm, locale, 1)}
                </th>
                <td className="py-1.5 text-end">{figureText(p.a.ringMm2, locale, 3)}</td>
                <td className="py-1.5 text-end">{figureText(p.b.ringMm2, locale, 3)}</td>
                <td className="py-1.5 text-end">{percentText(p.ratio - 1, locale)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <Verify />
        <p className="text-[14px] text-soft">
          A hesitation near quarter throttle points at the needle, not at the main jet (common practice).
        </p>
      </Section>
    </>
  );
}
