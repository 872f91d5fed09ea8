import { Caution } from "@/app/_ui/Caution";
import { Facts } from "@/app/_ui/Facts";
import { figureText } from "@/app/_ui/format";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import { SlideRise } from "@/app/_ui/SlideRise";
import type { SlideBench, SlideState } from "@/lib/domain/bench/slideBenchTypes";
import { Verify } from "../Verify";

/** A slide's rise time first, then spring and balance, with the cautions that belong to them. */
export function SlideAnswer({ bench, locale }: { bench: SlideBench; locale: string }) {
  const n = (value: number, decimals: number) => figureText(value, locale, decimals);
  const { solved } = bench;
  return (
    <>
      {bench.flutter && (
        <Caution title="Quicker than usually stays calm.">
          Lift holes and spring together may make the slide flutter or snap lean. Take the holes or the spring
          in smaller steps (common practice).
        </Caution>
      )}
      <Section title="Slide rise time, new against old">
        <p className="text-[22px]">
          <Opens
            name="Rise time by holes alone"
            because={bench.holesRatio.because}
            firmness={bench.holesRatio.firmness}
          >
            × {n(bench.holesRatio.value, 3)}
          </Opens>{" "}
          <span className="text-[15px] text-soft">by the holes alone</span>
        </p>
        {solved && (
          <p className="text-[22px]">
            <Opens
              name="Rise time solved"
              firmness="starting point"
              because={[
                ...bench.because,
                {
                  fact: `Solved up to ${n(solved.toMm, 1)} mm lift with the cut spring and both hole areas`,
                  from: "continuity and statics; the slide's inertia is left out",
                  effect: `x ${n(solved.ratio, 3)}`,
                },
              ]}
            >
              × {n(solved.ratio, 3)}
            </Opens>{" "}
            <span className="text-[15px] text-soft">with the spring too, to {n(solved.toMm, 1)} mm</span>
          </p>
        )}
        <Verify />
        <SlideRise before={bench.before.rise} after={bench.after.rise} locale={locale} />
      </Section>
      <Section title="Spring and balance">
        <Balance before={bench.before} after={bench.after} n={n} />
        <Facts
          rows={[
            {
              name: "Rate, new over old",
              value: (
                <Opens
                  name="Rate"
                  because={[...bench.because, ...bench.rate.because]}
                  firmness={bench.rate.firmness}
                >
                  × {n(bench.rate.value, 3)}
                </Opens>
              ),
            },
            {
              name: "Force at the fitted length changes by",
              value: `${n(bench.forceChangeN, 2)} N`,
              mono: true,
            },
          ]}
        />
        <Caution title="A slide that sticks is a no-ride fault.">
          Check that it falls freely with the bowl off and again before the engine is started. Drill away from
          the carburettor, deburr, blow out every chip.
        </Caution>
      </Section>
    </>
  );
}

function Balance({
  before,
  after,
  n,
}: {
  before: SlideState;
  after: SlideState;
  n: (value: number, decimals: number) => string;
}) {
  const rows: readonly (readonly [string, (s: SlideState) => string])[] = [
    ["Rate, N/m", (s) => n(s.rateNPerM, 1)],
    ["Free length, mm", (s) => n(s.freeMm, 1)],
    ["Force, slide shut, N", (s) => n(s.shutN, 2)],
    ["Force, full lift, N", (s) => n(s.fullN, 2)],
    ["Depression that begins to lift it, Pa", (s) => n(s.beginsPa, 0)],
    ["Depression at full lift, Pa", (s) => n(s.fullPa, 0)],
  ];
  return (
    <table className="mb-3 w-full max-w-[620px] border-collapse text-[15px]">
      <thead>
        <tr className="text-[13px] text-soft">
          {["", "As it is", "As changed"].map((name) => (
            <th
              key={name}
              scope="col"
              className="border-rule border-b py-1 text-end font-semibold first:text-start"
            >
              {name || <span className="sr-only">What</span>}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(([name, text]) => (
          <tr key={name} className="border-hair border-b">
            <th scope="row" className="py-1.5 text-start font-normal">
              {name}
            </th>
            <td className="py-1.5 text-end font-mono">{text(before)}</td>
            <td className="py-1.5 text-end font-mono">{text(after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
