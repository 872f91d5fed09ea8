import { within } from "../refusal";
import { type Interval, overlaps } from "./intervals";
import { dayOf, weekdayOf } from "./localTime";
import type { Asked, Awaited, Booked, Person, Slot, Wait } from "./slots";
import { waitsOf } from "./waits";
import { endWithin, workingIntervals } from "./working";

export type { Asked, Awaited, Booked, Slot, Wait };

const MINUTE = 60_000;

/**
 * The earliest stretches in which a bay and a person are both free for so many minutes of that person's working time, each with
 * what it waits for. Sorted by start, then end, then the order of people and bays; at most one for each person and start.
 * For one bay and person a start can only become possible when a shift begins, a booking of either ends, or the waiting
 * is over: moving a start earlier never makes its end later, so between those moments nothing opens up. Only they are tried.
 */
export function firstTimes(asked: Asked): Slot[] {
  within("minutes of work", asked.minutes, 1, 100_000);
  within("grid", asked.gridMinutes ?? 15, 1, 60, "minutes");
  const earliest = Math.max(asked.notBefore, ...(asked.awaited ?? []).map((one) => one.at));
  const horizon = earliest + (asked.horizonDays ?? 90) * 24 * 60 * MINUTE;
  const slots = asked.people.flatMap((person) => {
    const shifts = workingIntervals(
      asked.notBefore,
      horizon,
      person.hours,
      asked.closures,
      person.absences,
      asked.zone,
    );
    const own = asked.bays.flatMap((bay) => slotsOf(asked, person, bay, shifts, earliest));
    return own.filter((slot, i) => own.findIndex((other) => other.startsAt === slot.startsAt) === i);
  });
  return slots.toSorted((a, b) => a.startsAt - b.startsAt || a.endsAt - b.endsAt).slice(0, asked.count);
}

function slotsOf(
  asked: Asked,
  person: Person,
  bay: Asked["bays"][number],
  shifts: readonly Interval[],
  earliest: number,
): Slot[] {
  const taken = asked.bookings.filter((b) => b.bayId === bay.id || b.staffId === person.id);
  const grid = (asked.gridMinutes ?? 15) * MINUTE;
  const moments = [earliest, ...shifts.map((shift) => shift.startsAt), ...taken.map((b) => b.endsAt)];
  const starts = moments.filter((at) => at >= earliest).map((at) => Math.ceil(at / grid) * grid);
  const found: Slot[] = [];
  for (const startsAt of [...new Set(starts)].sort((a, b) => a - b)) {
    if (found.length >= asked.count) break;
    if (asked.notOn?.length && asked.notOn.includes(weekdayOf(dayOf(startsAt, asked.zone)))) continue;
    if (!shifts.some((shift) => shift.startsAt <= startsAt && startsAt < shift.endsAt)) continue;
    const endsAt = endWithin(shifts, startsAt, asked.minutes);
    if (endsAt === null || taken.some((b) => overlaps(b, { startsAt, endsAt }))) continue;
    const waitsFor = waitsOf(asked, person, bay, shifts, startsAt, grid);
    found.push({ bayId: bay.id, staffId: person.id, startsAt, endsAt, waitsFor });
  }
  return found;
}
