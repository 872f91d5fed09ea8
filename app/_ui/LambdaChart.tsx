import { scaleLinear } from "d3-scale";
import { curveText } from "./curveText";
import { LambdaDrawing } from "./LambdaDrawing";
import type { LambdaChartProps, LambdaFrame } from "./LambdaPicture";

/** The frame that holds all that is drawn, with round values ruled in it. */
export function lambdaFrame({
  before,
  after,
  wanted,
  wantedCurve,
}: Pick<LambdaChartProps, "before" | "after" | "wanted" | "wantedCurve">): LambdaFrame {
  const all = [...(before ?? []), ...after, ...(wantedCurve ?? [])].flatMap((p) => [p.low, p.high]);
  if (wanted) all.push(wanted.low, wanted.high);
  const scale = scaleLinear([Math.min(...all), Math.max(...all)], [0, 1]).nice(5);
  const [top = 0, floor = 1] = scale.domain();
  return { top, floor, ticks: scale.ticks(5) };
}

/** Mixture over throttle, rich at the top: the curve as found and the target in their likely ranges, over the wanted band. */
export function LambdaChart({ before, after, wantedCurve, ...rest }: LambdaChartProps) {
  return (
    <LambdaDrawing
      {...rest}
      before={before && before.length > 0 ? curveText(before) : undefined}
      after={curveText(after)}
      wantedCurve={wantedCurve && wantedCurve.length > 0 ? curveText(wantedCurve) : undefined}
      frame={lambdaFrame({ before, after, wantedCurve, wanted: rest.wanted })}
    />
  );
}
