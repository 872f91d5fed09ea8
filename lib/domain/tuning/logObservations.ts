import type { LambdaBin } from "./lambdaLog";
import { targetLambda } from "./regions";
import type { Correction, Observation, ThrottlePosition } from "./rideTypes";
import { decides } from "./steadyReading";
import { STEADY } from "./symptomTable";

const POSITIONS: readonly (readonly [ThrottlePosition, opening: number])[] = [
  ["closed", 0],
  ["eighth", 0.125],
  ["quarter", 0.25],
  ["half", 0.5],
  ["threeQuarter", 0.75],
  ["full", 1],
];

/** Nearer to the target than this, or than twice its own sigma, an opening counts as good. Fractional. Source: judgement. */
const GOOD = 0.03;

/**
 * What a lambda log says as observations, one per throttle position it held: lean, rich or good against the lambda aimed at,
 * bins nearest to the same position taken together by their samples. The engine was hot. Source: targets from memory.
 */
export function logObservations(bins: readonly LambdaBin[]): readonly Observation[] {
  return POSITIONS.flatMap(([throttle]) => {
    const here = bins.filter((bin) => nearest(bin.throttle) === throttle);
    if (here.length === 0) return [];
    const samples = here.reduce((sum, bin) => sum + bin.samples, 0);
    const mean = (of: (bin: LambdaBin) => number) =>
      here.reduce((sum, bin) => sum + of(bin) * bin.samples, 0) / samples;
    const off = mean((bin) => Math.log(bin.lambda / targetLambda(bin.throttle)));
    const sigma = mean((bin) => bin.sigma);
    const sign = Math.abs(off) < Math.max(GOOD, 2 * sigma) ? "good" : off > 0 ? "lean" : "rich";
    const percent = (Math.abs(Math.expm1(off)) * 100).toFixed(1);
    return [
      {
        throttle,
        condition: "steady" as const,
        engine: "hot" as const,
        sign: sign as Observation["sign"],
        note: `lambda ${mean((b) => b.lambda).toFixed(3)} ± ${(sigma * mean((b) => b.lambda)).toFixed(3)}, aimed at ${mean((b) => targetLambda(b.throttle)).toFixed(2)}: ${percent} % ${off > 0 ? "lean" : "rich"}, ${samples} samples`,
      },
    ];
  });
}

/** Share of an opening from which a setting is taken to be decided there. Source: judgement. */
const DECIDES = 0.5;

/**
 * Drops what must be measured first from leaner corrections where the log itself read rich at an opening the setting decides. A
 * leaner main wants a steady reading at full load (steadyReading.ts) that was rich; three quarters of throttle is none.
 */
export function withMeasured(
  corrections: readonly Correction[],
  seen: readonly Observation[],
  bins: readonly LambdaBin[],
  ratedRpm: number,
): readonly Correction[] {
  const richAtFullLoad = bins.some(
    (bin) => decides("main", bin, ratedRpm) && Math.log(targetLambda(bin.throttle) / bin.lambda) > GOOD,
  );
  return corrections.map((one) => {
    const { needsMeasurement: _, ...rest } = one;
    const read =
      one.setting === "mainJet"
        ? richAtFullLoad
        : seen.some((o) => o.sign === "rich" && (STEADY[o.throttle][needleKey(one.setting)] ?? 0) >= DECIDES);
    return read ? rest : one;
  });
}

/** Shims decide where the clip does. */
const needleKey = (key: Correction["setting"]) => (key === "needleShimBelowMm" ? "clipPosition" : key);

function nearest(opening: number): ThrottlePosition {
  return POSITIONS.reduce((best, p) =>
    Math.abs(p[1] - opening) < Math.abs(best[1] - opening) ? p : best,
  )[0];
}
