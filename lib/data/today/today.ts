import type { ShopHandle } from "@/lib/db/shop";
import { comesAt } from "@/lib/domain/schedule/late";
import { dayOf, instantOf, minuteOfDay, weekdayOf } from "@/lib/domain/schedule/localTime";
import type { WeeklyHours } from "@/lib/domain/schedule/working";
import { bikeByPlate } from "../bikes/bikeName";
import { bookedFor } from "../bookings/bookedFor";
import { dueReminders } from "../chasing/due";
import { daysNotClosed } from "../endOfDay/open";
import { nearTheirAmount } from "../invoices/byWord";
import { staffNames } from "../jobs/people";
import { openBreaks } from "../jobs/time/breaks";
import { listRunning } from "../jobs/time/list";
import { wishesOf } from "../jobs/wishes";
import { openQuestions } from "../quotes/questions";
import { stateOn } from "../quotes/rows";
import { unseenAnswers } from "../runAnswers/look";
import { belowPoint } from "../stock/drawer";
import { shortOf } from "../stock/shortages";
import { airToday } from "./air";
import { dueFollowUps } from "./followUps";
import {
  bookingsBetween,
  failedLetters,
  handedToMe,
  lateInvoices,
  liveJobs,
  mainJets,
  moneyToGiveBack,
  openFindings,
  openVariations,
  openWaits,
  sentQuotes,
  shortReservations,
} from "./reads";

/** What whoever looks may see; what they may not is not asked for. */
export interface TodaySees {
  readonly quotes: boolean;
  readonly invoices: boolean;
  readonly stock: boolean;
  readonly closing?: boolean;
}

const MOST = 8;
/** So many late invoices are looked through for reminders: their own page looks through more. */
const LATE_LOOKED_AT = 60;

/** The day in the bays, and everything that needs a hand now: a few bounded queries side by side. */
export async function getToday(shop: ShopHandle, sees: TodaySees) {
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: {
      zone: true,
      altitudeM: true,
      latitude: true,
      longitude: true,
      latitudeSouth: true,
      benchTemperatureC: true,
    },
  });
  const { zone } = settings;
  const day = dayOf(shop.now.getTime(), zone);
  const [begins, ends] = [instantOf(day, "00:00", zone), instantOf(day, "24:00", zone)].map(
    (at) => new Date(at),
  );
  const [
    bays,
    bookings,
    { jobs, unbooked, wishes },
    short,
    findings,
    running,
    people,
    quotes,
    invoices,
    followUps,
    parts,
    drawer,
    questions,
    toGiveBack,
    variations,
    nearAmount,
    waits,
    handed,
    names,
    answers,
    breaks,
    failed,
    chasing,
    notClosed,
  ] = await Promise.all([
    shop.read.bay.findMany({
      where: { active: true },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
      take: 12,
    }),
    bookingsBetween(shop, begins as Date, ends as Date),
    jobsWithWishes(shop),
    shortReservations(shop),
    openFindings(shop),
    listRunning(shop),
    shop.read.staff.findMany({
      where: { active: true },
      select: { hours: true },
      orderBy: { id: "asc" },
      take: 30,
    }),
    sees.quotes ? sentQuotes(shop, day) : [],
    sees.invoices ? lateInvoices(shop, day) : [],
    dueFollowUps(shop, day, zone),
    sees.stock ? belowPoint(shop, MOST) : [],
    sees.stock ? mainJets(shop) : null,
    sees.quotes ? openQuestions(shop, MOST) : [],
    sees.invoices ? moneyToGiveBack(shop) : [],
    sees.quotes ? openVariations(shop) : [],
    nearTheirAmount(shop, MOST),
    openWaits(shop),
    handedToMe(shop),
    staffNames(shop),
    unseenAnswers(shop, MOST),
    openBreaks(shop),
    sees.quotes ? failedLetters(shop) : [],
    sees.invoices ? dueReminders(shop.read, shop.now, LATE_LOOKED_AT) : { due: [] },
    sees.closing ? daysNotClosed(shop, day) : [],
  ]);
  const weekday = weekdayOf(day);
  return {
    day,
    nowMinute: minuteOfDay(shop.now.getTime(), zone),
    shift: shiftOf(people.flatMap((person) => (person.hours as WeeklyHours)[weekday] ?? [])),
    bays,
    bookings: bookings.map(({ startsAt, endsAt, dropOffAt, ...booking }) => ({
      id: booking.id,
      bayId: booking.bayId,
      state: booking.state,
      staff: booking.staff,
      job: booking.job && named(booking.job),
      of: bookedFor(booking),
      from: startsAt < (begins as Date) ? 0 : minuteOfDay(startsAt.getTime(), zone),
      to: endsAt >= (ends as Date) ? 1440 : minuteOfDay(endsAt.getTime(), zone),
      dropOff: dropOffAt?.toISOString() ?? null,
    })),
    // Those whose time has passed are asked about: lib/data/bookings/late.ts.
    arrivals: bookings
      .flatMap(({ job, state, arrivedAt, ...times }) =>
        job &&
        state === "held" &&
        !arrivedAt &&
        !job.arrivedAt &&
        (job.state === "booked" || job.state === "waiting") &&
        comesAt(times) > shop.now
          ? [{ ...named(job), at: comesAt(times).toISOString() }]
          : [],
      )
      .slice(0, MOST),
    bookedIn: bookings
      .filter((one) => one.job === null && one.state === "held" && !one.arrivedAt && comesAt(one) > shop.now)
      .map((booking) => ({
        id: booking.id,
        of: bookedFor(booking),
        at: comesAt(booking).toISOString(),
      }))
      .slice(0, MOST),
    stopped: jobs
      .filter((job) => job.stopped && job.state !== "ready")
      .map(named)
      .slice(0, MOST),
    toRide: jobs
      .filter((job) => job.state === "ride" && !job.stopped)
      .map(named)
      .slice(0, MOST),
    ready: jobs
      .filter((job) => job.state === "ready")
      .map(named)
      .slice(0, MOST),
    unbooked: unbooked.map((job) => ({ ...named(job), wish: wishes.get(job.id) ?? null })),
    short: byJob(short).slice(0, MOST),
    findings,
    variations: variations.map(({ validUntil, ...one }) => ({
      ...one,
      state: stateOn(day, { state: one.state, validUntil }),
    })),
    nearAmount,
    /** Late where the day until which they wait has passed. */
    waits: waits.map(({ job, ...one }) => ({
      ...one,
      late: one.untilOn !== null && one.untilOn < day,
      job: named(job),
    })),
    handed: handed.map(({ job, fromId, ...one }) => ({
      ...one,
      from: fromId === null ? "" : (names.get(fromId) ?? ""),
      job: named(job),
    })),
    running,
    /** Letters that could not be sent. */
    failed,
    /** Days before today whose drawer was not counted; none where the shop closes no days. */
    notClosed,
    breaks,
    quotes: quotes.map(({ sentAt, ...quote }) => ({
      ...quote,
      sentDays: sentAt ? Math.floor((shop.now.getTime() - sentAt.getTime()) / 86_400_000) : 0,
      endsInDays: daysBetween(day, quote.validUntil),
    })),
    invoices: invoices.map((invoice) => ({
      ...invoice,
      customer: invoice.customer?.name ?? "",
      openMinor: invoice.grossMinor - invoice.prepaidMinor - invoice.paidMinor,
      lateDays: daysBetween(invoice.dueOn ?? day, day),
    })),
    /** Reminders of late invoices that are to be written today. */
    reminders: chasing.due.slice(0, MOST),
    toGiveBack: toGiveBack.map(({ job, depositLeftMinor }) => ({ ...named(job), depositLeftMinor })),
    followUps: followUps.map(({ bike, ...one }) => ({
      ...one,
      bike: bikeByPlate(bike),
      customer: bike.customer.name,
    })),
    parts,
    drawer,
    questions,
    answers,
    air: airToday(settings, Number(day.slice(5, 7))),
  };
}

/** Jobs that go on, and when the customers of those without a booking can come. */
async function jobsWithWishes(shop: ShopHandle) {
  const jobs = await liveJobs(shop);
  const unbooked = jobs.filter((job) => job.state === "waiting").slice(0, MOST);
  const wishes = await wishesOf(
    shop,
    unbooked.map((job) => job.id),
  );
  return { jobs, unbooked, wishes };
}

type ShortRow = Awaited<ReturnType<typeof shortReservations>>[number];

function byJob(rows: readonly ShortRow[]) {
  const jobs = Map.groupBy(
    rows.filter((row) => shortOf(row) > 0),
    (row) => row.job.id,
  );
  return [...jobs.values()].flatMap((own) => {
    const [first] = own;
    return first
      ? [{ ...named(first.job), parts: own.map((row) => ({ ...row.part, shortMilli: shortOf(row) })) }]
      : [];
  });
}

function named({ bike, customer, ...job }: ShortRow["job"]) {
  return {
    ...job,
    bike: bikeByPlate(bike),
    model: bike.modelCard.model,
    customer: customer.name,
    phone: customer.phone,
  };
}

/** From the first to the last hour anyone works, whole hours; a usual day when nobody does. */
function shiftOf(shifts: readonly { from: string; to: string }[]): { from: number; to: number } {
  const minute = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
  if (shifts.length === 0) return { from: 480, to: 1020 };
  const from = Math.min(...shifts.map((shift) => minute(shift.from)));
  const to = Math.max(...shifts.map((shift) => minute(shift.to)));
  return { from: Math.floor(from / 60) * 60, to: Math.ceil(to / 60) * 60 };
}

function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);
}

export type TodayView = Awaited<ReturnType<typeof getToday>>;
