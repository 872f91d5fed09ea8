import type { ShopHandle, ShopTx } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { gradesOf } from "@/lib/domain/schedule/grades";
import { type Interval, lengthWithin } from "@/lib/domain/schedule/intervals";
import { dayAfter, dayOf } from "@/lib/domain/schedule/localTime";
import {
  type DaysOff,
  type WeeklyHours,
  type WorkingTime,
  workingIntervals,
} from "@/lib/domain/schedule/working";

type Reader = Pick<ShopTx, "settings" | "staff" | "closure" | "absence" | "bay" | "booking">;

export interface Formats {
  zone: string;
  locale: string;
  name: string;
  address: string;
  phone: string;
}

export async function formatsOf(db: Reader): Promise<Formats> {
  return db.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, locale: true, name: true, address: true, phone: true },
  });
}

export interface Worker {
  id: number;
  name: string;
  hours: WeeklyHours;
  absences: DaysOff[];
  /** Codes of the labour grades they work at; none is every grade. */
  grades: readonly string[];
}

/** Those who work on bikes, with their hours and their absences from a day on. */
export async function workersOf(db: Reader, fromDay: string): Promise<Worker[]> {
  const rows = await db.staff.findMany({
    where: { active: true, role: { in: ["owner", "tuner"] } },
    select: {
      id: true,
      name: true,
      hours: true,
      grades: true,
      absences: {
        where: { toDay: { gte: fromDay } },
        select: { fromDay: true, toDay: true },
        orderBy: { fromDay: "asc" },
      },
    },
    orderBy: { name: "asc" },
  });
  return rows.map((row) => ({ ...row, hours: hoursOf(row.hours), grades: gradesOf(row.grades) }));
}

/** Weekly hours as they are stored; a person without any does not work. */
export const hoursOf = (stored: unknown): WeeklyHours =>
  stored !== null && typeof stored === "object" && !Array.isArray(stored) ? (stored as WeeklyHours) : {};

export async function closuresFrom(db: Reader, fromDay: string): Promise<(DaysOff & { why: string })[]> {
  return db.closure.findMany({
    where: { toDay: { gte: fromDay } },
    select: { fromDay: true, toDay: true, why: true },
    orderBy: { fromDay: "asc" },
  });
}

/** The working time of one person of the shop, and its name; refuses one who is gone. */
export async function workingTimeOf(
  db: Reader,
  staffId: number,
  zone: string,
  fromDay: string,
): Promise<WorkingTime & { name: string }> {
  const person = await db.staff.findUnique({
    where: { id: staffId },
    select: {
      name: true,
      active: true,
      hours: true,
      absences: {
        where: { toDay: { gte: fromDay } },
        select: { fromDay: true, toDay: true },
        orderBy: { fromDay: "asc" },
      },
    },
  });
  if (!person?.active)
    throw new Refusal("This person does not work here any more.", "Choose someone else.", {
      staffId: "Choose someone else.",
    });
  const closures = await closuresFrom(db, fromDay);
  return { name: person.name, hours: hoursOf(person.hours), absences: person.absences, closures, zone };
}

/** Working minutes inside a stretch: what a booking was made for. */
export function workingMinutes(stretch: Interval, working: WorkingTime): number {
  const shifts = workingIntervals(
    stretch.startsAt,
    stretch.endsAt,
    working.hours,
    working.closures,
    working.absences,
    working.zone,
  );
  return Math.round(lengthWithin(shifts, stretch) / 60_000);
}

/** The shop's own day now. */
export function today(shop: ShopHandle, zone: string): string {
  return dayOf(shop.now.getTime(), zone);
}

/** Monday of the week a day is in. */
export function mondayOf(day: string): string {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay() || 7;
  return dayAfter(day, 1 - weekday);
}
