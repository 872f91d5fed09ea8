import { tFor } from "../tuning/studentT";

/** One reading of a part over the distance it was ridden. */
export interface WornAt {
  readonly km: number;
  readonly value: number;
}

/** Where a line through the readings goes, with the band in which the next reading probably lies. */
export interface WearAhead {
  readonly known: true;
  /** Readings that it rests on. */
  readonly readings: number;
  /** What it changes by in 1,000 km. */
  readonly per1000Km: number;
  /** The distance at which the line meets the limit, and where the band first and last does; null for beyond a life. */
  readonly km: number | null;
  readonly earliest: number | null;
  readonly latest: number | null;
  readonly at: (km: number) => { readonly value: number; readonly low: number; readonly high: number };
}

export interface NothingAhead {
  readonly known: false;
  readonly why: string;
}

/** Fewer than these carry no line with a band. */
const LEAST = 3;
/** Two of ten readings lie outside the band. Judgement. */
const OUTSIDE = 0.2;
/** A longer life than this nobody projects. Judgement, km. */
const LIFE_KM = 300_000;

/**
 * The readings of the part that is fitted now: a reading that goes back by more than half of what was worn, and by more than three
 * steps of its gauge, is of another part. Source: judgement.
 */
function ofPartNow(readings: readonly WornAt[], grows: boolean, gauge: number): WornAt[] {
  const sign = grows ? 1 : -1;
  let own: WornAt[] = [];
  for (const one of [...readings].sort((a, b) => a.km - b.km)) {
    const worst = Math.max(...own.map((at) => sign * at.value));
    const worn = worst - sign * (own[0]?.value ?? 0);
    const back = worst - sign * one.value;
    own = own.length > 0 && back > Math.max(worn / 2, 3 * gauge) ? [one] : [...own, one];
  }
  return own;
}

/**
 * Projects the wear of a part over distance to its limit: least squares through its readings and the prediction interval of Student's
 * t about the line. `gauge`: the smallest step that is read. Nothing is projected from fewer than three readings at different
 * distances, nor where they do not go towards the limit. Source: simple linear regression (Draper and Smith, Applied Regression
 * Analysis, 1.4: prediction of a single new observation).
 */
export function wearAhead(
  readings: readonly WornAt[],
  limit: { readonly low?: number | undefined; readonly high?: number | undefined },
  gauge: number,
): WearAhead | NothingAhead {
  const bound = limit.high ?? limit.low;
  if (bound === undefined) return { known: false, why: "The model card sets no limit." };
  const grows = limit.high !== undefined;
  const own = ofPartNow(readings, grows, gauge);
  const n = own.length;
  if (new Set(own.map((one) => one.km)).size < LEAST)
    return {
      known: false,
      why: `${n} ${n === 1 ? "reading" : "readings"} with a distance of the part that is fitted now: three tell a line.`,
    };
  const mean = (values: readonly number[]) => values.reduce((sum, one) => sum + one, 0) / n;
  const [x0, y0] = [mean(own.map((one) => one.km)), mean(own.map((one) => one.value))];
  const sxx = own.reduce((sum, one) => sum + (one.km - x0) ** 2, 0);
  const slope = own.reduce((sum, one) => sum + (one.km - x0) * (one.value - y0), 0) / sxx;
  if (grows ? slope <= 0 : slope >= 0)
    return { known: false, why: `${n} readings do not go towards the limit so far.` };
  const line = (km: number) => y0 + slope * (km - x0);
  const rest = own.reduce((sum, one) => sum + (one.value - line(one.km)) ** 2, 0);
  const t = tFor(OUTSIDE, n - 2);
  const half = (km: number) => t * Math.sqrt((rest / (n - 2)) * (1 + 1 / n + (km - x0) ** 2 / sxx));
  const at = (km: number) => ({ value: line(km), low: line(km) - half(km), high: line(km) + half(km) });
  const worse = (km: number) => (grows ? at(km).high : -at(km).low);
  const better = (km: number) => (grows ? at(km).low : -at(km).high);
  const against = grows ? bound : -bound;
  const last = Math.max(...own.map((one) => one.km));
  return {
    known: true,
    readings: n,
    per1000Km: slope * 1000,
    km: crossing((km) => (grows ? line(km) : -line(km)), against, last),
    earliest: crossing(worse, against, last),
    latest: crossing(better, against, last),
    at,
  };
}

/** Where what only grows from `from` on first reaches a value, by halving; null beyond a life. The band's near side bends, so it is stepped along. */
function crossing(of: (km: number) => number, value: number, from: number): number | null {
  if (of(from) >= value) return from;
  const step = 250;
  for (let km = from + step; km <= LIFE_KM; km += step) {
    if (of(km) < value) continue;
    let [low, high] = [km - step, km];
    for (let i = 0; i < 20; i++) {
      const middle = (low + high) / 2;
      if (of(middle) >= value) high = middle;
      else low = middle;
    }
    return Math.round(high);
  }
  return null;
}
