import { type Interval, lengthWithin } from "./intervals";
import { instantOf } from "./localTime";
import type { Person } from "./slots";
import { type DaysOff, workingIntervals } from "./working";

export interface LoadedBooking extends Interval {
  readonly staffId: number;
  /** There is a job: the work is agreed. Without one the time is only held. */
  readonly sold: boolean;
}

/** Working minutes of a day: what the shop can do, what of it is agreed, what is only held, what is left, and what is too much. */
export interface Load {
  readonly capacity: number;
  readonly sold: number;
  readonly held: number;
  readonly free: number;
  readonly over: number;
}

/**
 * The load of one day (a calendar day of the zone). Capacity is the time of everybody who works, at no moment of more people
 * than there are bays. A booking counts with the working time of its person on that day; one of a person who is not among
 * `people` counts with none.
 */
export function loadOf(
  day: string,
  bays: number,
  people: readonly Person[],
  closures: readonly DaysOff[],
  bookings: readonly LoadedBooking[],
  zone: string,
): Load {
  const whole = { startsAt: instantOf(day, "00:00", zone), endsAt: instantOf(day, "24:00", zone) };
  const shifts = new Map(
    people.map(({ id, hours, absences }) => [
      id,
      workingIntervals(whole.startsAt, whole.endsAt, hours, closures, absences, zone),
    ]),
  );
  const worked = (sold: boolean) =>
    bookings
      .filter((one) => one.sold === sold)
      .reduce((sum, one) => sum + lengthWithin(shifts.get(one.staffId) ?? [], one), 0);
  const minutes = (milliseconds: number) => Math.round(milliseconds / 60_000);
  const [capacity, sold, held] = [atMost(bays, [...shifts.values()].flat()), worked(true), worked(false)].map(
    minutes,
  ) as [number, number, number];
  const left = capacity - sold - held;
  return { capacity, sold, held, free: Math.max(0, left), over: Math.max(0, -left) };
}

/** Length of stretches laid side by side, where no more than `most` count at any moment. */
function atMost(most: number, stretches: readonly Interval[]): number {
  const edges = stretches
    .flatMap(({ startsAt, endsAt }) => [
      { at: startsAt, by: 1 },
      { at: endsAt, by: -1 },
    ])
    .toSorted((a, b) => a.at - b.at);
  let [there, since, sum] = [0, 0, 0];
  for (const { at, by } of edges) {
    sum += Math.min(there, most) * (at - since);
    there += by;
    since = at;
  }
  return sum;
}
