import { dayAfter, dayOf, instantOf, weekdayOf } from "../schedule/localTime";

/** A stretch of one person's time, epoch milliseconds; `endedAt` null while it lasts. */
export interface Stretch {
  readonly staffId: number;
  readonly startedAt: number;
  readonly endedAt: number | null;
}

/** One person's week, Monday first: whole minutes of each local day, which add up to the week's. */
export interface WeekHours {
  readonly staffId: number;
  readonly days: readonly number[];
  readonly minutes: number;
  readonly breakMinutes: number;
  /** Time still runs: the week is not over. */
  readonly running: boolean;
}

const MINUTE = 60_000;

/** The Monday of the week of a local day (ISO 8601). */
export const mondayOf = (day: string): string => dayAfter(day, 1 - weekdayOf(day));

/**
 * Hours of a week by person and local day, as recorded: a stretch over midnight is cut there on the shop's clock, so that a day
 * of 23 or 25 hours has what was worked in it. Each day is rounded once, to the minute. A break that was not ended on its day was
 * going home and counts as none. Overtime is not computed: what it is, law and contract say. Source: IANA zones by Temporal.
 */
export function weekHours(
  monday: string,
  zone: string,
  entries: readonly Stretch[],
  breaks: readonly Stretch[],
  now: number,
): WeekHours[] {
  const days = Array.from({ length: 7 }, (_, at) => dayAfter(monday, at));
  const spans = days.map((day) => [instantOf(day, "00:00", zone), instantOf(day, "24:00", zone)] as const);
  const inside = ({ startedAt, endedAt }: Stretch, [from, to]: readonly [number, number]) =>
    Math.max(0, Math.min(endedAt ?? now, to) - Math.max(startedAt, from));
  const first = spans[0]?.[0] ?? 0;
  const last = spans.at(-1)?.[1] ?? 0;
  const here = entries.filter((one) => (one.endedAt ?? now) > first && one.startedAt < last);
  const ended = breaks.filter(
    (one) => one.endedAt !== null && dayOf(one.startedAt, zone) === dayOf(one.endedAt, zone),
  );
  return [...Map.groupBy(here, (one) => one.staffId)].map(([staffId, own]) => {
    const minutes = spans.map((span) =>
      Math.round(own.reduce((ms, one) => ms + inside(one, span), 0) / MINUTE),
    );
    const paused = ended.filter((one) => one.staffId === staffId);
    return {
      staffId,
      days: minutes,
      minutes: minutes.reduce((sum, day) => sum + day, 0),
      breakMinutes: Math.round(paused.reduce((ms, one) => ms + inside(one, [first, last]), 0) / MINUTE),
      running: own.some((one) => one.endedAt === null),
    };
  });
}
