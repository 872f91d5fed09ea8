import { Refusal } from "../refusal";

/** A lambda log as columns of equal length. `throttle` 0 to 1. */
export interface LambdaLog {
  readonly timeS: readonly number[];
  readonly throttle: readonly number[];
  readonly lambda: readonly number[];
  readonly rpm?: readonly number[] | undefined;
}

export interface LambdaBin {
  readonly throttle: number;
  readonly rpm: number | null;
  readonly lambda: number;
  /** One-sigma of the mean, sensor included. */
  readonly sigma: number;
  readonly samples: number;
  /** Time spent steady in this bin. */
  readonly seconds: number;
}

export interface LambdaReading {
  readonly bins: readonly LambdaBin[];
  readonly steady: number;
  readonly transient: number;
  readonly unreadable: number;
}

/** Sensor's own sigma, fastest throttle (1/s) still called steady, settling time (s), fewest samples in a bin. Judgement. */
const SENSOR_SIGMA = 0.015;
const STEADY_PER_S = 0.15;
const SETTLE_S = 0.6;
const FEWEST = 5;
/** A sample speaks for no more time than this, whatever the gap before it. Source: judgement. */
const LONGEST_S = 1;

/**
 * Reads a lambda log into bins of equal throttle width: steady samples only, and none within 0.6 s of a throttle movement,
 * since gas and sensor lag. Samples that are not finite or outside lambda 0.5 to 2 are counted as unreadable.
 * Refuses columns of unequal length or time that does not run forward. Source: judgement.
 */
export function readLambdaLog(log: LambdaLog, bins = 8): LambdaReading {
  const n = log.timeS.length;
  if (log.throttle.length !== n || log.lambda.length !== n || (log.rpm && log.rpm.length !== n))
    throw new Refusal("The columns of the log differ in length.", "Check the column mapping.");
  const found = Array.from({ length: bins }, () => [] as number[]);
  let movedAt = Number.NEGATIVE_INFINITY;
  let transient = 0;
  let unreadable = 0;
  for (let i = 0; i < n; i++) {
    const t = log.timeS[i] ?? Number.NaN;
    const u = log.throttle[i] ?? Number.NaN;
    const lambda = log.lambda[i] ?? Number.NaN;
    // The first sample has none before it: NaN compares as neither backwards nor moved.
    const dt = t - (log.timeS[i - 1] ?? Number.NaN);
    if (dt <= 0) throw new Refusal(`Time does not run forward at row ${i + 1}.`, "Sort the log by time.");
    if (Math.abs(u - (log.throttle[i - 1] ?? u)) / dt > STEADY_PER_S) movedAt = t;
    if (!(lambda >= 0.5 && lambda <= 2 && u >= 0 && u <= 1 && Number.isFinite(t))) unreadable++;
    else if (t - movedAt < SETTLE_S) transient++;
    else found[Math.min(bins - 1, Math.floor(u * bins))]?.push(i);
  }
  return {
    bins: found.filter((rows) => rows.length >= FEWEST).map((rows) => binOf(log, rows)),
    steady: found.reduce((sum, rows) => sum + rows.length, 0),
    transient,
    unreadable,
  };
}

const stepBefore = ({ timeS }: LambdaLog, i: number) => (timeS[i] ?? 0) - (timeS[Math.max(0, i - 1)] ?? 0);

function binOf(log: LambdaLog, rows: readonly number[]): LambdaBin {
  const mean = (column: readonly number[]) =>
    rows.reduce((sum, i) => sum + (column[i] ?? 0), 0) / rows.length;
  const lambda = mean(log.lambda);
  const variance = rows.reduce((sum, i) => sum + ((log.lambda[i] ?? 0) - lambda) ** 2, 0) / (rows.length - 1);
  return {
    throttle: mean(log.throttle),
    rpm: log.rpm ? mean(log.rpm) : null,
    lambda,
    sigma: Math.hypot(SENSOR_SIGMA, Math.sqrt(variance / rows.length) / lambda),
    samples: rows.length,
    seconds: rows.reduce((sum, i) => sum + Math.min(LONGEST_S, stepBefore(log, i)), 0),
  };
}
