import type { ShopHandle } from "@/lib/db/shop";
import { dayIn } from "@/lib/domain/schedule/days";
import { dayAfter, instantOf } from "@/lib/domain/schedule/localTime";
import { presentOn } from "@/lib/domain/schedule/present";
import { type DayRange, daysIn, earlier } from "@/lib/domain/schedule/ranges";
import { hoursOf } from "../bookings/facts";
import { revenueIn } from "./revenue";

export interface SoldMonth {
  readonly month: string;
  /** Billed as labour by the hour on documents issued in the month, less credits. */
  readonly soldMinutes: number;
  /** Taken on jobs. */
  readonly tookMinutes: number;
  /** In the hours of those who work on bikes, less absences and closures. */
  readonly presentMinutes: number;
}

export interface SoldHours extends Omit<SoldMonth, "month"> {
  readonly months: readonly SoldMonth[];
}

/** Hours sold, taken and present in a range, by month. Days that have not come yet count as present for nobody. */
export async function soldHoursIn(shop: ShopHandle, range: DayRange, zone: string): Promise<SoldHours> {
  const today = dayIn(zone, shop.now);
  const until = earlier(range.to, today);
  const days = Array.from({ length: Math.max(0, daysIn({ from: range.from, to: until })) }, (_, at) =>
    dayAfter(range.from, at),
  );
  const [revenue, present, took] = await Promise.all([
    revenueIn(shop, range),
    presentBy(shop, days),
    tookBy(shop, range, zone),
  ]);
  const months = revenue.months.map(({ month, minutes }) => ({
    month,
    soldMinutes: minutes,
    tookMinutes: Math.round(took.get(month) ?? 0),
    presentMinutes: present.get(month) ?? 0,
  }));
  const sum = (of: Exclude<keyof SoldMonth, "month">) => months.reduce((total, one) => total + one[of], 0);
  return {
    months,
    soldMinutes: revenue.minutes,
    tookMinutes: sum("tookMinutes"),
    presentMinutes: sum("presentMinutes"),
  };
}

async function presentBy(shop: ShopHandle, days: readonly string[]): Promise<Map<string, number>> {
  const [first, last] = [days[0] ?? "", days.at(-1) ?? ""];
  const touching = { fromDay: { lte: last }, toDay: { gte: first } };
  const [people, closures] = await Promise.all([
    shop.read.staff.findMany({
      where: { active: true, role: { in: ["owner", "tuner"] } },
      select: {
        hours: true,
        absences: {
          where: touching,
          select: { fromDay: true, toDay: true },
          orderBy: { fromDay: "asc" },
          take: 500,
        },
      },
      orderBy: { id: "asc" },
      take: 100,
    }),
    shop.read.closure.findMany({
      where: touching,
      select: { fromDay: true, toDay: true },
      orderBy: { fromDay: "asc" },
      take: 500,
    }),
  ]);
  const by = new Map<string, number>();
  for (const { hours, absences } of people)
    for (const [at, minutes] of presentOn(days, hoursOf(hours), [...closures, ...absences]).entries()) {
      const month = (days[at] ?? "").slice(0, 7);
      by.set(month, (by.get(month) ?? 0) + minutes);
    }
  return by;
}

const PAGE = 2_000;
/** So many stretches of time are added up: eight people over three years have fewer. */
const MOST = 60_000;

/** Minutes taken on jobs by the month in which each stretch began, on the shop's clock; one that still runs is left out. */
async function tookBy(shop: ShopHandle, range: DayRange, zone: string): Promise<Map<string, number>> {
  const begins = new Date(instantOf(range.from, "00:00", zone));
  const ends = new Date(instantOf(range.to, "24:00", zone));
  const by = new Map<string, number>();
  const offsets = new Map<string, string>();
  const staff = await shop.read.staff.findMany({ select: { id: true }, orderBy: { id: "asc" }, take: 500 });
  for (let after = 0, read = 0; read < MOST; ) {
    const rows = await shop.read.timeEntry.findMany({
      where: {
        id: { gt: after },
        staffId: { in: staff.map((one) => one.id) },
        startedAt: { gte: begins, lt: ends },
        endedAt: { not: null },
      },
      select: { id: true, startedAt: true, endedAt: true },
      orderBy: { id: "asc" },
      take: PAGE,
    });
    for (const { startedAt, endedAt } of rows) {
      // A day's month is looked up once: naming a zone's day costs more than all the rest.
      const hour = startedAt.toISOString().slice(0, 13);
      const month = offsets.get(hour) ?? dayIn(zone, startedAt).slice(0, 7);
      offsets.set(hour, month);
      by.set(month, (by.get(month) ?? 0) + ((endedAt?.getTime() ?? 0) - startedAt.getTime()) / 60_000);
    }
    const last = rows.at(-1);
    if (!last || rows.length < PAGE) break;
    after = last.id;
    read += rows.length;
  }
  return by;
}
