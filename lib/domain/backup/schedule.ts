import { dayAfter, dayOf, instantOf } from "../schedule/localTime";

const DAY_MS = 86_400_000;

/** A shop without a good copy for longer than this is told so. */
const LATE_AFTER_MS = 2 * DAY_MS;

/**
 * Whether the daily backup is due: none was begun since its hour last came round.
 * `last` and `now` are milliseconds of the epoch, `at` is "HH:MM" in the IANA zone `zone`.
 * One begun later than now was begun by a clock that has been set back since: it does not count.
 */
export function isDue(last: number | null, now: number, at: string, zone: string): boolean {
  if (last === null || last > now) return true;
  const today = dayOf(now, zone);
  const todays = instantOf(today, at, zone);
  const latest = todays <= now ? todays : instantOf(dayAfter(today, -1), at, zone);
  return last < latest;
}

/**
 * Whether a shop's last good copy is too old. `good` is when it was made, null for never; `since` is when the server began
 * to make backups here. All are milliseconds of the epoch. A copy later than now does not count (a clock set back).
 */
export function isLate(good: number | null, since: number, now: number): boolean {
  const counted = good !== null && good <= now ? good : since;
  return now - counted > LATE_AFTER_MS;
}
