import { scaleLinear } from "d3-scale";
import { CurveBand } from "./CurveBand";
import { type LambdaChartProps, type LambdaFrame, LambdaPicture } from "./LambdaPicture";

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
export function LambdaChart(props: LambdaChartProps) {
  return <LambdaPicture {...props} frame={lambdaFrame(props)} band={CurveBand} />;
}
