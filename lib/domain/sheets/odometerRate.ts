/** An odometer read at a moment, epoch milliseconds. */
export interface OdometerRead {
  readonly at: number;
  readonly km: number;
}

/** How far a bike is ridden in a day, with its band, and where it stood last. */
export interface OdometerRate {
  readonly known: true;
  readonly kmPerDay: number;
  readonly low: number;
  readonly high: number;
  /** Readings that it rests on, and the days between the first and the last. */
  readonly readings: number;
  readonly days: number;
  /** The newest reading of the counter that is fitted now. */
  readonly last: OdometerRead;
}

/** Why nothing is estimated, in a sentence. */
export interface NoRate {
  readonly known: false;
  readonly why: string;
}

const DAY = 86_400_000;
/** Readings closer together than this say more of the reading than of the riding (judgement, in days). */
const APART = 7;
/** A shorter span is one season, or one holiday (judgement, in days). */
const LEAST_SPAN = 60;
/** Riding differs by season and owner at least by this share, and by more where two or three readings are all (judgement). */
const LEAST_BAND = 0.25;
const FEW = { readings: 4, band: 0.5 };

export const RATE_METHOD =
  "median of the kilometres a day between each two readings at least a week apart (Sen, 1968); the band is their middle half, at least a quarter either way";

/**
 * The readings of each counter by themselves, in order. A reading lower than the one before is another counter, unless it fits the
 * one before that: then the reading between was misread, and is left out.
 */
function counters(readings: readonly OdometerRead[]): OdometerRead[][] {
  const runs: OdometerRead[][] = [];
  for (const one of [...readings].sort((a, b) => a.at - b.at || a.km - b.km)) {
    const run = runs.at(-1);
    const before = run?.at(-2);
    if (run && one.km < (run.at(-1)?.km ?? 0) && before && one.km >= before.km) run.pop();
    if (run && one.km >= (run.at(-1)?.km ?? 0)) run.push(one);
    else runs.push([one]);
  }
  return runs;
}

function quantile(sorted: readonly number[], share: number): number {
  const at = (sorted.length - 1) * share;
  const below = sorted[Math.floor(at)] ?? 0;
  return below + ((sorted[Math.ceil(at)] ?? below) - below) * (at - Math.floor(at));
}

/**
 * Kilometres a day from a bike's own odometer readings: robust against one that was misread, and over an exchanged counter, whose
 * readings are compared with each other only. Refuses fewer than two readings a week apart, and a span of less than two months.
 * Source: P. K. Sen, Journal of the American Statistical Association 63 (1968) 1379, for the slope; the band is judgement.
 */
export function kmPerDay(readings: readonly OdometerRead[]): OdometerRate | NoRate {
  const runs = counters(readings);
  const last = runs.at(-1)?.at(-1);
  const slopes = runs.flatMap((run) =>
    run.flatMap((from, at) =>
      run
        .slice(at + 1)
        .flatMap((to) =>
          to.at - from.at >= APART * DAY ? [((to.km - from.km) / (to.at - from.at)) * DAY] : [],
        ),
    ),
  );
  if (!last || slopes.length === 0)
    return { known: false, why: "The odometer was not read twice, a week or more apart." };
  const days = runs.reduce((sum, run) => sum + ((run.at(-1)?.at ?? 0) - (run[0]?.at ?? 0)) / DAY, 0);
  if (days < LEAST_SPAN)
    return {
      known: false,
      why: `The odometer was read over ${Math.floor(days)} days only: two months are needed.`,
    };
  const sorted = slopes.sort((a, b) => a - b);
  const rate = quantile(sorted, 0.5);
  const least = rate * (readings.length < FEW.readings ? FEW.band : LEAST_BAND);
  return {
    known: true,
    kmPerDay: rate,
    low: Math.max(0, Math.min(quantile(sorted, 0.25), rate - least)),
    high: Math.max(quantile(sorted, 0.75), rate + least),
    readings: readings.length,
    days: Math.round(days),
    last,
  };
}

/** Where the odometer probably stands at a moment after its last reading. */
export function odometerAt(
  rate: OdometerRate,
  at: number,
): { readonly km: number; readonly low: number; readonly high: number } {
  const days = Math.max(0, (at - rate.last.at) / DAY);
  const on = (perDay: number) => Math.round(rate.last.km + days * perDay);
  return { km: on(rate.kmPerDay), low: on(rate.low), high: on(rate.high) };
}

/** Further ahead nobody knows how a bike is ridden (judgement, in days). */
const FURTHEST = 3650;

/** When a distance is probably reached: epoch milliseconds; null for longer than ten years. */
export function reachedAt(
  rate: OdometerRate,
  km: number,
): { readonly at: number | null; readonly early: number | null; readonly late: number | null } {
  const left = Math.max(0, km - rate.last.km);
  const by = (perDay: number) => {
    const days = left === 0 ? 0 : left / perDay;
    return days <= FURTHEST ? rate.last.at + days * DAY : null;
  };
  return { at: by(rate.kmPerDay), early: by(rate.high), late: by(rate.low) };
}
