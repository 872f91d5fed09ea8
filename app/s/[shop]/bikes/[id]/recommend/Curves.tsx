import { LambdaChart } from "@/app/_ui/LambdaChart";
import { Opens } from "@/app/_ui/Opens";
import { Section } from "@/app/_ui/Section";
import type { FuelCurve } from "@/lib/domain/tuning/targetTypes";
import { overLift, overThrottle } from "./curves";

export interface CurvesProps {
  before: FuelCurve;
  after: FuelCurve;
  fullLiftMm: number;
  where: string;
  locale: string;
}

/** The mixture before and after, over the grip and over the slide: a constant-vacuum slide does not follow the grip. */
export function Curves({ before, after, fullLiftMm, where, locale }: CurvesProps) {
  const lift = overLift(before, after, fullLiftMm);
  const grip = overThrottle(before, after);
  const said =
    "The lambda as found is dashed, the recommended one full, each in its likely range (one and a half sigma), over the lambda that is wanted.";
  return (
    <>
      <Section
        title={`Mixture over throttle, ${where}`}
        aside={
          <Opens
            name="Fuel curve"
            because={[...after.because, ...after.assumptions]}
            firmness={after.firmness}
          >
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
