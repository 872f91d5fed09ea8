import { within } from "../refusal";
import { type Interval, lengthWithin, overlaps } from "./intervals";
import { type DaysOff, endWithin, type WeeklyHours, workingIntervals } from "./working";

export interface Person {
  readonly id: number;
  readonly name: string;
  readonly hours: WeeklyHours;
  readonly absences: readonly DaysOff[];
}

export interface Booked extends Interval {
  readonly bayId: number;
  readonly staffId: number;
}

/** Something that must have happened first, such as parts arriving. */
export interface Awaited {
  readonly what: string;
  /** Epoch milliseconds. */
  readonly at: number;
}

export interface Asked {
  readonly minutes: number;
  readonly bays: readonly { readonly id: number; readonly name: string }[];
  readonly people: readonly Person[];
  readonly bookings: readonly Booked[];
  readonly closures: readonly DaysOff[];
  readonly notBefore: number;
  readonly awaited?: readonly Awaited[];
  readonly zone: string;
  readonly count: number;
  /** How far ahead to look; 90 days when left out. */
  readonly horizonDays?: number;
  /** Starts fall on multiples of this; 15 minutes when left out. */
  readonly gridMinutes?: number;
}

export interface Wait {
  readonly kind: "awaited" | "bay" | "person" | "hours";
  readonly what: string;
  /** Epoch milliseconds. */
  readonly until: number;
}

/** A bay and a person for the whole stretch, nights included. */
export interface Slot extends Interval {
  readonly bayId: number;
  readonly staffId: number;
  /** What keeps it from being earlier; empty for a slot that starts at once. */
  readonly waitsFor: readonly Wait[];
}

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
    const shifts = workingIntervals(asked.notBefore, horizon, person.hours, asked.closures, person.absences, asked.zone);
    const own = asked.bays.flatMap((bay) => slotsOf(asked, person, bay, shifts, earliest));
    return own.filter((slot, i) => own.findIndex((other) => other.startsAt === slot.startsAt) === i);
  });
  return slots.toSorted((a, b) => a.startsAt - b.startsAt || a.endsAt - b.endsAt).slice(0, asked.count);
}

function slotsOf(asked: Asked, person: Person, bay: Asked["bays"][number], shifts: readonly Interval[], earliest: number): Slot[] {
  const taken = asked.bookings.filter((b) => b.bayId === bay.id || b.staffId === person.id);
  const grid = (asked.gridMinutes ?? 15) * MINUTE;
  const moments = [earliest, ...shifts.map((shift) => shift.startsAt), ...taken.map((b) => b.endsAt)];
  const starts = moments.filter((at) => at >= earliest).map((at) => Math.ceil(at / grid) * grid);
  const found: Slot[] = [];
  for (const startsAt of [...new Set(starts)].sort((a, b) => a - b)) {
    if (found.length >= asked.count) break;
    if (!shifts.some((shift) => shift.startsAt <= startsAt && startsAt < shift.endsAt)) continue;
    const endsAt = endWithin(shifts, startsAt, asked.minutes);
    if (endsAt === null || taken.some((b) => overlaps(b, { startsAt, endsAt }))) continue;
    const waitsFor = waitsOf(asked, person, bay, shifts, startsAt, grid);
    found.push({ bayId: bay.id, staffId: person.id, startsAt, endsAt, waitsFor });
  }
  return found;
}

/** Whatever ended so shortly before the start that no working time (beyond the grid) was left in between. */
function waitsOf(asked: Asked, person: Person, bay: Asked["bays"][number], shifts: readonly Interval[], startsAt: number, grid: number): Wait[] {
  const binding = (until: number) =>
    until > asked.notBefore && until <= startsAt && lengthWithin(shifts, { startsAt: until, endsAt: startsAt }) < grid;
  const awaited = (asked.awaited ?? []).map((one): Wait => ({ kind: "awaited", what: one.what, until: one.at }));
  const taken = asked.bookings.flatMap((b): Wait[] => [
    ...(b.bayId === bay.id ? [{ kind: "bay" as const, what: bay.name, until: b.endsAt }] : []),
    ...(b.staffId === person.id ? [{ kind: "person" as const, what: person.name, until: b.endsAt }] : []),
  ]);
  const waits = [...awaited, ...taken].filter((wait) => binding(wait.until));
  if (waits.length > 0 || startsAt - asked.notBefore < grid) return waits;
  const shift = shifts.find((one) => one.startsAt <= startsAt && startsAt - one.startsAt < grid);
  return shift ? [{ kind: "hours", what: person.name, until: shift.startsAt }] : [];
}
