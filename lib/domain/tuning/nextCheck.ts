import type { Reason } from "../reason";
import { intervalFor, type Severity } from "./severity";
import type { WearLimit } from "./wearLimits";

/** A reading with the odometer that it was taken at. */
export interface CheckedAt {
  readonly odometerKm: number;
  readonly value: number;
}

/** When something that wears is measured again, by the odometer, and why then. */
export interface NextCheck {
  readonly atKm: number;
  readonly because: readonly Reason[];
}

interface Checked {
  /** In the order in which they were taken. */
  readonly readings: readonly CheckedAt[];
  readonly limit: WearLimit;
  /** How far apart it is measured on the dry road: the model card's service; null where the card says none. */
  readonly everyKm: number | null;
  readonly severity: Severity | null;
}

/** Of what its own readings leave to the limit, so much is ridden before it is looked at again. Source: judgement. */
const SHARE = 0.5;

/**
 * When a part that wears is measured next: after the service interval as the bike's use shortens it, or half-way to the limit as its last
 * two readings go, whichever comes first. The readings hold the use already, so that the factor shortens the interval alone. Null where
 * nothing was read with an odometer, the limit is reached, or neither way says anything. A reading further from the limit than the one
 * before is of a new part and begins anew. Distances in km, values in the limit's unit. Source: a straight line through two readings; judgement.
 */
export function nextCheck({ readings, limit, everyKm, severity }: Checked): NextCheck | null {
  const last = readings.at(-1);
  if (!last) return null;
  const left = (value: number) =>
    Math.min(
      limit.high === undefined ? Number.POSITIVE_INFINITY : limit.high - value,
      limit.low === undefined ? Number.POSITIVE_INFINITY : value - limit.low,
    );
  const still = left(last.value);
  if (still <= 0) return null;
  const service = everyKm === null ? null : intervalFor(everyKm, severity);
  const before = readings.at(-2);
  const ridden = before ? last.odometerKm - before.odometerKm : 0;
  const worn = before ? left(before.value) - still : 0;
  const trendKm = ridden > 0 && worn > 0 ? Math.round(((still * ridden) / worn) * SHARE) : null;
  const ways = [
    ...(service ? [{ km: service.km, because: serviceReasons(everyKm ?? 0, service.because) }] : []),
    ...(trendKm === null ? [] : [{ km: trendKm, because: [TREND] }]),
  ].sort((a, b) => a.km - b.km);
  const [first] = ways;
  return first ? { atKm: last.odometerKm + first.km, because: first.because } : null;
}

const serviceReasons = (everyKm: number, shortened: readonly Reason[]): readonly Reason[] => [
  { fact: `measured again after ${everyKm} km on the dry road`, from: "service interval of the model card" },
  ...shortened,
];

const TREND: Reason = {
  fact: "half-way to its limit, as its last two readings go",
  from: "a straight line through them; looking at half of it is judgement",
};
