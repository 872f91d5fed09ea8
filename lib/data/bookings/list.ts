import type { Prisma } from "@/lib/db/generated/sqlite/shop/client";
import type { ShopHandle } from "@/lib/db/shop";
import { loadOf } from "@/lib/domain/schedule/load";
import { dayAfter, dayOf, instantOf, minuteOfDay, weekdayOf } from "@/lib/domain/schedule/localTime";
import { LONGEST_SPAN_MS } from "@/lib/domain/schedule/working";
import { onJobsNow } from "../jobs/time/onNow";
import { bookedFor, FOR } from "./bookedFor";
import { closuresFrom, formatsOf, mondayOf, today, workersOf, workingMinutes, workingTimeOf } from "./facts";

const BOOKED = {
  id: true,
  startsAt: true,
  endsAt: true,
  dropOffAt: true,
  pickUpAt: true,
  arrivedAt: true,
  expectedAt: true,
  noShowAt: true,
  state: true,
  note: true,
  version: true,
  bay: { select: { id: true, name: true } },
  staff: { select: { id: true, name: true } },
  ...FOR,
} satisfies Prisma.BookingSelect;

export type BookedRow = ReturnType<typeof rowOf>;

/** A booking with what it is for in words. */
const rowOf = (row: Prisma.BookingGetPayload<{ select: typeof BOOKED }>) => ({
  ...row,
  of: bookedFor(row),
  /** Since when the bike is here; null while it is not. */
  hereAt: row.job?.arrivedAt ?? row.arrivedAt,
});

export interface BookingFilter {
  bay?: number | undefined;
  person?: number | undefined;
}

/** Bookings that touch the days from one up to another, both included, by their start. */
async function bookingsBetween(
  shop: ShopHandle,
  fromDay: string,
  toDay: string,
  zone: string,
  filter: BookingFilter = {},
): Promise<BookedRow[]> {
  const rows = await shop.read.booking.findMany({
    where: {
      state: { in: ["held", "done"] },
      // Between two ends, or every booking before would be looked at.
      startsAt: {
        gt: new Date(instantOf(fromDay, "00:00", zone) - LONGEST_SPAN_MS),
        lt: new Date(instantOf(toDay, "24:00", zone)),
      },
      endsAt: { gt: new Date(instantOf(fromDay, "00:00", zone)) },
      ...(filter.bay ? { bayId: filter.bay } : {}),
      ...(filter.person ? { staffId: filter.person } : {}),
    },
    select: BOOKED,
    orderBy: [{ startsAt: "asc" }, { id: "asc" }],
    take: 400,
  });
  return rows.map(rowOf);
}

/** What the bookings screen shows: the day ruled by bays, and its week. */
export async function getDay(shop: ShopHandle, wantedDay: string | undefined, filter: BookingFilter) {
  const { zone, locale } = await formatsOf(shop.read);
  const now = today(shop, zone);
  const day = wantedDay ?? now;
  const monday = mondayOf(day);
  const sunday = dayAfter(monday, 6);
  const [week, bays, people, closures] = await Promise.all([
    bookingsBetween(shop, monday, sunday, zone, filter),
    shop.read.bay.findMany({
      where: { active: true },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
    }),
    workersOf(shop.read, monday),
    closuresFrom(shop.read, monday),
  ]);
  const working = new Map(people.map(({ id, hours, absences }) => [id, { hours, absences, closures, zone }]));
  /** The working minutes that a booking was made for; 0 where its person works no more. */
  const minutesOf = (row: BookedRow) => {
    const time = working.get(row.staff.id);
    return time
      ? workingMinutes({ startsAt: row.startsAt.getTime(), endsAt: row.endsAt.getTime() }, time)
      : 0;
  };
  const touches = (row: BookedRow, on: string) =>
    dayOf(row.startsAt.getTime(), zone) <= on && dayOf(row.endsAt.getTime() - 1, zone) >= on;
  const days = Array.from({ length: 7 }, (_, i) => dayAfter(monday, i)).map((on) => ({
    day: on,
    bookings: week.filter((row) => touches(row, on)),
    load: loadOf(on, bays.length, people, closures, week.map(loaded), zone),
    closed: closures.find((closure) => closure.fromDay <= on && on <= closure.toDay)?.why ?? null,
    away: people
      .filter((person) => person.absences.some((away) => away.fromDay <= on && on <= away.toDay))
      .map((person) => person.name),
  }));
  const onDay = days.find((one) => one.day === day);
  const bookings = (onDay?.bookings ?? []).map((row) => ({ ...row, minutes: minutesOf(row) }));
  const jobs = day === now ? bookings.flatMap((row) => (row.job ? [row.job.id] : [])) : [];
  const on = await onJobsNow(shop, [...new Set(jobs)]);
  const shifts = people.flatMap((person) => person.hours[weekdayOf(day)] ?? []);
  return {
    day,
    today: now,
    zone,
    locale,
    monday,
    days,
    load: onDay?.load ?? null,
    closed: onDay?.closed ?? null,
    away: onDay?.away ?? [],
    bookings,
    /** Who is on the day's jobs now, or on a break from them; nobody on any day but today. */
    on,
    bays,
    people: people.map(({ id, name }) => ({ id, name })),
    rule: ruleOf(shifts, bookings, day, zone),
    nowMinute: day === now ? minuteOfDay(shop.now.getTime(), zone) : undefined,
  };
}

const loaded = ({ startsAt, endsAt, staff, job }: BookedRow) => ({
  startsAt: startsAt.getTime(),
  endsAt: endsAt.getTime(),
  staffId: staff.id,
  sold: job !== null,
});

export type DayView = Awaited<ReturnType<typeof getDay>>;

/** First and last minute of the ruled day: whole hours around the shifts and whatever is booked outside them. */
function ruleOf(
  shifts: readonly { from: string; to: string }[],
  bookings: readonly BookedRow[],
  day: string,
  zone: string,
) {
  const minute = (text: string) => Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));
  const all = [
    ...shifts.flatMap((shift) => [minute(shift.from), minute(shift.to)]),
    ...bookings.flatMap((row) => {
      const block = blockOf(row, day, zone);
      return [block.from, block.to].filter((at) => at > 0 && at < 1440);
    }),
  ];
  const low = all.length ? Math.min(...all) : 480;
  const high = all.length ? Math.max(...all) : 1020;
  return {
    from: Math.floor(low / 60) * 60,
    to: Math.max(Math.ceil(high / 60), Math.floor(low / 60) + 1) * 60,
  };
}

/** A booking's part of one day, in minutes after midnight on the shop's clock. */
export function blockOf(
  row: { startsAt: Date; endsAt: Date },
  day: string,
  zone: string,
): { from: number; to: number } {
  const from = dayOf(row.startsAt.getTime(), zone) < day ? 0 : minuteOfDay(row.startsAt.getTime(), zone);
  const to = dayOf(row.endsAt.getTime(), zone) > day ? 1440 : minuteOfDay(row.endsAt.getTime(), zone);
  return { from, to };
}

/** One booking with the working minutes it was made for. */
export async function getBooking(shop: ShopHandle, id: number) {
  const found = await shop.read.booking.findUnique({ where: { id }, select: BOOKED });
  if (!found) return null;
  const { zone, locale } = await formatsOf(shop.read);
  const stretch = { startsAt: found.startsAt.getTime(), endsAt: found.endsAt.getTime() };
  const [bays, people] = await Promise.all([
    shop.read.bay.findMany({
      where: { OR: [{ active: true }, { id: found.bay.id }] },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
    }),
    workersOf(shop.read, dayOf(stretch.startsAt, zone)),
  ]);
  const person = people.find((one) => one.id === found.staff.id);
  const minutes = person
    ? workingMinutes(stretch, await workingTimeOf(shop.read, person.id, zone, dayOf(stretch.startsAt, zone)))
    : 0;
  return {
    ...rowOf(found),
    zone,
    locale,
    bays,
    people: people.map(({ id, name }) => ({ id, name })),
    minutes,
  };
}
