import type { ShopHandle } from "@/lib/db/shop";
import { standardAir } from "@/lib/domain/air/isa";
import { typicalWeather } from "@/lib/domain/air/typical";
import { airFromReading, relativeAirDensity } from "@/lib/domain/air/weather";
import { dayOf, instantOf, weekdayOf } from "@/lib/domain/schedule/localTime";
import type { WeeklyHours } from "@/lib/domain/schedule/working";
import { bikeName } from "./jobs/list";
import { belowPoint } from "./stock/drawer";
import { shortOf } from "./stock/shortages";
import { minuteOfDay } from "./timeEntries/clock";
import { listRunning } from "./timeEntries/list";

/** What whoever looks may see; what they may not is not asked for. */
export interface TodaySees {
  readonly quotes: boolean;
  readonly invoices: boolean;
  readonly stock: boolean;
}

const MOST = 8;
const NAMED = {
  id: true,
  number: true,
  title: true,
  state: true,
  stopped: true,
  arrivedAt: true,
  customer: { select: { name: true, phone: true } },
  bike: { select: { plate: true, modelCard: { select: { make: true, model: true } } } },
} as const;

/** The day in the bays, and everything that needs a hand now: a few bounded queries side by side. */
export async function getToday(shop: ShopHandle, sees: TodaySees) {
  const settings = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { zone: true, altitudeM: true, latitudeSouth: true, benchTemperatureC: true },
  });
  const { zone } = settings;
  const day = dayOf(shop.now.getTime(), zone);
  const [begins, ends] = [instantOf(day, "00:00", zone), instantOf(day, "24:00", zone)].map((at) => new Date(at));
  const [bays, bookings, jobs, short, findings, running, people, quotes, invoices, followUps, parts, drawer] =
    await Promise.all([
      shop.read.bay.findMany({ where: { active: true }, select: { id: true, name: true }, orderBy: { name: "asc" }, take: 12 }),
      bookingsBetween(shop, begins as Date, ends as Date),
      liveJobs(shop),
      shortReservations(shop),
      openFindings(shop),
      listRunning(shop),
      shop.read.staff.findMany({ where: { active: true }, select: { hours: true }, orderBy: { id: "asc" }, take: 30 }),
      sees.quotes ? sentQuotes(shop) : [],
      sees.invoices ? lateInvoices(shop, day) : [],
      dueFollowUps(shop, day),
      sees.stock ? belowPoint(shop, MOST) : [],
      sees.stock ? mainJets(shop) : null,
    ]);
  const weekday = weekdayOf(day);
  return {
    day,
    nowMinute: minuteOfDay(shop.now, zone),
    shift: shiftOf(people.map((person) => (person.hours as WeeklyHours)[weekday] ?? []).flat()),
    bays,
    bookings: bookings.map(({ job, startsAt, endsAt, dropOffAt, ...booking }) => ({
      ...booking,
      job: named(job),
      from: startsAt < (begins as Date) ? 0 : minuteOfDay(startsAt, zone),
      to: endsAt >= (ends as Date) ? 1440 : minuteOfDay(endsAt, zone),
      dropOff: dropOffAt?.toISOString() ?? null,
    })),
    arrivals: bookings
      .filter(({ job, state }) => state === "held" && !job.arrivedAt && (job.state === "booked" || job.state === "waiting"))
      .map(({ job, startsAt, dropOffAt }) => ({ ...named(job), at: (dropOffAt ?? startsAt).toISOString() }))
      .slice(0, MOST),
    stopped: jobs.filter((job) => job.stopped && job.state !== "ready").map(named).slice(0, MOST),
    toRide: jobs.filter((job) => job.state === "ride" && !job.stopped).map(named).slice(0, MOST),
    ready: jobs.filter((job) => job.state === "ready").map(named).slice(0, MOST),
    unbooked: jobs.filter((job) => job.state === "waiting").map(named).slice(0, MOST),
    short: byJob(short).slice(0, MOST),
    findings,
    running,
    quotes: quotes.map(({ sentAt, ...quote }) => ({
      ...quote,
      sentDays: sentAt ? Math.floor((shop.now.getTime() - sentAt.getTime()) / 86_400_000) : 0,
      endsInDays: daysBetween(day, quote.validUntil),
    })),
    invoices: invoices.map((invoice) => ({
      ...invoice,
      openMinor: invoice.grossMinor - invoice.prepaidMinor - invoice.paidMinor,
      lateDays: daysBetween(invoice.dueOn ?? day, day),
    })),
    followUps: followUps.map(({ bike, ...one }) => ({ ...one, bike: bikeName(bike), customer: bike.customer.name })),
    parts,
    drawer,
    air: airToday(settings, Number(day.slice(5, 7))),
  };
}

function bookingsBetween(shop: ShopHandle, begins: Date, ends: Date) {
  return shop.read.booking.findMany({
    where: { state: { not: "cancelled" }, startsAt: { lt: ends, gt: new Date(begins.getTime() - 14 * 86_400_000) }, endsAt: { gt: begins } },
    select: {
      id: true,
      bayId: true,
      startsAt: true,
      endsAt: true,
      dropOffAt: true,
      state: true,
      staff: { select: { name: true } },
      job: { select: NAMED },
    },
    orderBy: { startsAt: "asc" },
    take: 60,
  });
}

function liveJobs(shop: ShopHandle) {
  return shop.read.job.findMany({
    where: { OR: [{ state: { in: ["waiting", "ride", "ready"] } }, { state: "inWork", stopped: { not: "" } }] },
    select: NAMED,
    orderBy: { id: "asc" },
    take: 60,
  });
}

function shortReservations(shop: ShopHandle) {
  return shop.read.reservation.findMany({
    where: {
      state: "held",
      wantedMilli: { gt: shop.read.reservation.fields.heldMilli },
      job: { state: { in: ["waiting", "booked", "inWork", "ride"] } },
    },
    select: {
      wantedMilli: true,
      heldMilli: true,
      usedMilli: true,
      part: { select: { id: true, code: true, name: true, unit: true, onOrderMilli: true } },
      job: { select: NAMED },
    },
    orderBy: { id: "asc" },
    take: 60,
  });
}

function openFindings(shop: ShopHandle) {
  return shop.read.finding.findMany({
    where: { state: "open", job: { state: { in: ["inWork", "ride", "ready"] } } },
    select: { id: true, text: true, job: { select: { id: true, number: true, bikeId: true } } },
    orderBy: { id: "desc" },
    take: MOST,
  });
}

/** Oldest first: those are nearest their end. */
function sentQuotes(shop: ShopHandle) {
  return shop.read.quote.findMany({
    where: { state: "sent" },
    select: { id: true, number: true, title: true, grossMinor: true, sentAt: true, validUntil: true, customer: { select: { name: true } } },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

/** A job stays "invoiced" until it is paid, so this looks at unpaid invoices alone. */
function lateInvoices(shop: ShopHandle, day: string) {
  return shop.read.invoice.findMany({
    where: { state: "issued", kind: "invoice", dueOn: { lt: day }, job: { state: "invoiced" } },
    select: {
      id: true,
      number: true,
      dueOn: true,
      grossMinor: true,
      prepaidMinor: true,
      paidMinor: true,
      customer: { select: { name: true } },
    },
    orderBy: { id: "asc" },
    take: MOST,
  });
}

function dueFollowUps(shop: ShopHandle, day: string) {
  return shop.read.followUp.findMany({
    where: { state: "due", dueOn: { lte: day } },
    select: {
      id: true,
      what: true,
      dueOn: true,
      bikeId: true,
      bike: { select: { plate: true, customer: { select: { name: true } }, modelCard: { select: { make: true, model: true } } } },
    },
    orderBy: { dueOn: "asc" },
    take: MOST,
  });
}

/** The drawer of main jets with the most promised of it. Families are named by the shop. */
async function mainJets(shop: ShopHandle) {
  const rows = await shop.read.part.findMany({
    where: { kind: "jet", active: true, sizeMilli: { not: null }, family: { not: "" } },
    select: { id: true, code: true, family: true, sizeMilli: true, onHandMilli: true, reservedMilli: true, onOrderMilli: true, pointMilli: true },
    orderBy: [{ family: "asc" }, { sizeMilli: "asc" }],
    take: 300,
  });
  const families = Map.groupBy(rows, (row) => row.family);
  const promised = (sizes: typeof rows) => sizes.reduce((sum, size) => sum + size.reservedMilli, 0);
  const best = [...families]
    .sort(([, a], [, b]) => promised(b) - promised(a))
    .sort(([a], [b]) => Number(/main/i.test(b)) - Number(/main/i.test(a)))[0];
  return best ? { family: best[0], sizes: best[1] } : null;
}

type ShortRow = Awaited<ReturnType<typeof shortReservations>>[number];

function byJob(rows: readonly ShortRow[]) {
  const jobs = Map.groupBy(
    rows.filter((row) => shortOf(row) > 0),
    (row) => row.job.id,
  );
  return [...jobs.values()].flatMap((own) => {
    const [first] = own;
    return first ? [{ ...named(first.job), parts: own.map((row) => ({ ...row.part, shortMilli: shortOf(row) })) }] : [];
  });
}

function named({ bike, customer, ...job }: ShortRow["job"]) {
  return { ...job, bike: bikeName(bike), model: bike.modelCard.model, customer: customer.name, phone: customer.phone };
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

/** Typical air of the month at the shop against its bench day: nobody has measured today's. */
function airToday(settings: { altitudeM: number; latitudeSouth: boolean; benchTemperatureC: number }, month: number) {
  const air = typicalWeather(month, settings.latitudeSouth ? "south" : "north", settings.altitudeM);
  const bench = airFromReading({
    stationPa: standardAir(settings.altitudeM).pressurePa,
    temperatureC: settings.benchTemperatureC,
    humidity: 0.5,
  });
  return {
    temperatureC: air.temperatureK - 273.15,
    pressurePa: air.pressurePa,
    ratio: relativeAirDensity(air, bench),
    because: [
      ...air.because,
      { fact: `Bench day: ${settings.benchTemperatureC} °C at ${settings.altitudeM} m, 50 % humidity`, from: "the shop's settings" },
    ],
    firmness: air.firmness,
  };
}

export type TodayView = Awaited<ReturnType<typeof getToday>>;
