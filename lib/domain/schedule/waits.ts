import { type Interval, lengthWithin } from "./intervals";
import type { Asked, Person, Wait } from "./slots";

/** Whatever ended so shortly before the start that no working time (beyond the grid) was left in between. */
export function waitsOf(
  asked: Asked,
  person: Person,
  bay: Asked["bays"][number],
  shifts: readonly Interval[],
  startsAt: number,
  grid: number,
): Wait[] {
  const binding = (until: number) =>
    until > asked.notBefore &&
    until <= startsAt &&
    lengthWithin(shifts, { startsAt: until, endsAt: startsAt }) < grid;
  const awaited = (asked.awaited ?? []).map(
    (one): Wait => ({ kind: "awaited", what: one.what, until: one.at }),
  );
  const taken = asked.bookings.flatMap((b): Wait[] => [
    ...(b.bayId === bay.id ? [{ kind: "bay" as const, what: bay.name, until: b.endsAt }] : []),
    ...(b.staffId === person.id ? [{ kind: "person" as const, what: person.name, until: b.endsAt }] : []),
  ]);
  const waits = [...awaited, ...taken].filter((wait) => binding(wait.until));
  if (waits.length > 0 || startsAt - asked.notBefore < grid) return waits;
  const shift = shifts.find((one) => one.startsAt <= startsAt && startsAt - one.startsAt < grid);
  return shift ? [{ kind: "hours", what: person.name, until: shift.startsAt }] : [];
}
