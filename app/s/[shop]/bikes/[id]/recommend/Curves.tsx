import { figureText } from "@/app/_ui/format";
import { LambdaChart } from "@/app/_ui/LambdaChart";
import type { FeltMark } from "@/app/_ui/LambdaPicture";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import { overLift, overSpeed, overThrottle } from "./curves";

export interface CurvesProps {
  before: FuelCurve;
  after: FuelCurve;
  /** The same at full throttle over engine speed. */
  speed: { before: FuelCurve; after: FuelCurve };
  /** True where a dyno pull of the bike says its filling over speed. */
  ownFilling: boolean;
  fullLiftMm: number;
  where: string;
  /** Where the bike was felt lean or rich before any work. */
  felt: readonly FeltMark[];
  /** The address that answers what the curve rests on. */
  why: string;
  locale: string;
}

/** The mixture before and after, over the grip and over the slide: a constant-vacuum slide does not follow the grip. */
export function Curves(props: CurvesProps) {
  const { before, after, speed, ownFilling, fullLiftMm, where, felt, why, locale } = props;
  const lift = overLift(before, after, fullLiftMm);
  const grip = overThrottle(before, after);
  const turns = overSpeed(speed.before, speed.after);
  const rpmAt = (x: number) => figureText(turns.lowRpm + x * (turns.highRpm - turns.lowRpm), locale, 0);
  const said =
    "The lambda as found is dashed, the recommended one full, each in its likely range (one and a half sigma), over the lambda that is wanted.";
  return (
    <>
      <Section
        title={`Mixture over throttle, ${where}`}
        aside={
          <Opens name="Fuel curve" because={why} firmness={after.firmness}>
            why
          </Opens>
        }
      >
        <LambdaChart
          title="Lambda over throttle opening, before and after"
          description={said}
          before={grip.before}
          after={grip.after}
          wantedCurve={grip.wanted}
          felt={felt}
          afterLabel="recommended"
          locale={locale}
        />
      </Section>
      <Section title={`Mixture over engine speed at full throttle, ${where}`}>
        <LambdaChart
          title="Lambda over engine speed at full throttle, before and after"
          description={`${said} Filling over speed is ${ownFilling ? "that of its own pull" : "a usual engine's, assumed"}.`}
          before={turns.before}
          after={turns.after}
          wantedCurve={turns.wanted}
          xName="engine speed, rpm"
          ticks={[0, 0.25, 0.5, 0.75, 1].map((at) => [at, rpmAt(at)] as const)}
          ends={[turns.lowRpm, turns.highRpm]}
          afterLabel="recommended"
          locale={locale}
        />
      </Section>
      <Section title={`Mixture over slide lift, ${where}`}>
        <LambdaChart
          title="Lambda over slide lift, before and after"
          description={`${said} Full is ${Math.round(fullLiftMm)} mm of lift.`}
          before={lift.before}
          after={lift.after}
          wantedCurve={lift.wanted}
          xName="share of slide lift"
          afterLabel="recommended"
          locale={locale}
        />
      </Section>
    </>
  );
}
