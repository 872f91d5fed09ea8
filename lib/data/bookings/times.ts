import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { type Awaited, firstTimes as earliest, type Wait } from "@/lib/domain/schedule/firstTimes";
import { canDo } from "@/lib/domain/schedule/grades";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { quantityText } from "@/lib/schemas/quantity";
import type { BookingWish } from "@/lib/schemas/wishes";
import { type Coming, comingOf, expectedOn } from "../orders/expected";
import { gradeNames } from "../shop/hours";
import { shortOf } from "../stock/shortages";
import { closuresFrom, formatsOf, workersOf } from "./facts";

export interface OfferedTime {
  startsAt: number;
  endsAt: number;
  bayId: number;
  bay: string;
  staffId: number;
  person: string;
  /** What keeps it from being earlier. */
  waitsFor: Wait[];
}

export interface FirstTimes {
  minutes: number;
  times: OfferedTime[];
  /** What the work is, by the names of its labour grades; empty where everybody can do it. */
  grades: string[];
  /** Those who do not work at these grades, and are not offered. */
  cannot: string[];
  /** Short parts of which nobody knows when they come: no time waits for them. */
  unknown: string[];
}

/**
 * The first times at which a bay, a person and the parts are there for a job's remaining minutes; with a wish, from its day
 * on, beginning on weekdays that suit.
 */
export async function firstTimes(
  shop: ShopHandle,
  jobId: number,
  count = 5,
  wish: Pick<BookingWish, "fromDay" | "notDays"> | null = null,
): Promise<FirstTimes> {
  const { zone } = await formatsOf(shop.read);
  const fromDay = dayOf(shop.now.getTime(), zone);
  const job = await jobToBook(shop, jobId);
  if (!job) throw new Refusal("There is no such job.", "Open it from the list of jobs.", {}, "missing");
  const short = job.reservations.filter((row) => shortOf(row) > 0).map((row) => row.part.id);
  const coming = await comingOf(shop, short);
  const { deliveryBy } = await shop.read.settings.findUniqueOrThrow({
    where: { id: 1 },
    select: { deliveryBy: true },
  });
  const due = (day: string) => instantOf(day, deliveryBy, zone);
  const { awaited, unknown } = partsToCome(job, coming, fromDay, due);
  const needed = [
    ...new Set(job.steps.flatMap(({ state, grade }) => (state === "todo" && grade ? [grade] : []))),
  ];
  const workers = await workersOf(shop.read, fromDay);
  const cannot = workers.filter(({ grades }) => !canDo(grades, needed)).map(({ name }) => name);
  const times = await timesFor(shop, zone, { minutes: job.minutes, awaited, count, wish, needed });
  const names = cannot.length === 0 ? [] : await gradeNames(shop);
  const grades = names.filter(({ code }) => needed.includes(code)).map(({ name }) => name);
  return { minutes: job.minutes, times, grades, cannot, unknown };
}

/** The first times at which a bay and a person are free for so many working minutes. */
export async function firstTimesFor(shop: ShopHandle, minutes: number, count = 5): Promise<OfferedTime[]> {
  const { zone } = await formatsOf(shop.read);
  return timesFor(shop, zone, { minutes, awaited: [], count, wish: null, needed: [] });
}

interface Sought {
  readonly minutes: number;
  readonly awaited: readonly Awaited[];
  readonly count: number;
  readonly wish: Pick<BookingWish, "fromDay" | "notDays"> | null;
  /** Codes of the labour grades that whoever does it works at. */
  readonly needed: readonly string[];
}

async function timesFor(
  shop: ShopHandle,
  zone: string,
  { minutes, awaited, count, wish, needed }: Sought,
): Promise<OfferedTime[]> {
  const now = shop.now.getTime();
  const fromDay = dayOf(now, zone);
  const [bays, workers, closures, bookings] = await Promise.all([
    shop.read.bay.findMany({
      where: { active: true },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
    }),
    workersOf(shop.read, fromDay),
    closuresFrom(shop.read, fromDay),
    shop.read.booking.findMany({
      where: { state: "held", endsAt: { gt: shop.now } },
      select: { bayId: true, staffId: true, startsAt: true, endsAt: true },
      orderBy: { startsAt: "asc" },
    }),
  ]);
  const people = workers.filter(({ grades }) => canDo(grades, needed));
  const slots = earliest({
    minutes,
    bays,
    people,
    bookings: bookings.map((b) => ({ ...b, startsAt: b.startsAt.getTime(), endsAt: b.endsAt.getTime() })),
    closures,
    notBefore: Math.max(now, wish?.fromDay ? instantOf(wish.fromDay, "00:00", zone) : 0),
    awaited,
    zone,
    notOn: wish?.notDays ?? [],
    count,
  });
  const nameIn = (rows: readonly { id: number; name: string }[], id: number) =>
    rows.find((row) => row.id === id)?.name ?? "";
  return slots.map((slot) => ({
    ...slot,
    bay: nameIn(bays, slot.bayId),
    person: nameIn(people, slot.staffId),
    waitsFor: [...slot.waitsFor],
  }));
}

/** A job as booking sees it: the minutes still to do, and what it is short of. Null where there is none. */
export async function jobToBook(shop: Pick<ShopHandle, "read">, jobId: number) {
  const job = await shop.read.job.findUnique({
    where: { id: jobId },
    select: {
      id: true,
      number: true,
      title: true,
      state: true,
      minutes: true,
      customer: { select: { name: true } },
      bike: { select: { modelCard: { select: { make: true, model: true } }, plate: true } },
      steps: { select: { minutes: true, state: true, grade: true }, orderBy: { position: "asc" } },
      reservations: {
        where: { state: "held" },
        select: {
          wantedMilli: true,
          reservedMilli: true,
          usedMilli: true,
          part: { select: { id: true, code: true, unit: true, leadDays: true } },
        },
        orderBy: { id: "asc" },
      },
    },
  });
  return job && { ...job, minutes: remainingMinutes(job) };
}

/** Minutes of the steps still to do; of the whole plan where no steps are laid out, or none is left. */
export function remainingMinutes(job: {
  minutes: number;
  steps: readonly { minutes: number; state: string }[];
}): number {
  const left = job.steps.reduce((sum, step) => sum + (step.state === "todo" ? step.minutes : 0), 0);
  return Math.max(left || job.minutes, 5);
}

interface Short {
  wantedMilli: number;
  reservedMilli: number;
  usedMilli: number;
  part: { id: number; code: string; unit: string; leadDays: number | null };
}

/**
 * Short parts come on the day their order is due, or after their supplier's lead time from today where none is on its way, at
 * the hour by which the shop has its deliveries. An order without a day, or behind its day, comes nobody knows when.
 */
function partsToCome(
  job: { id: number; reservations: readonly Short[] },
  coming: ReadonlyMap<number, readonly Coming[]>,
  fromDay: string,
  at: (day: string) => number,
) {
  const awaited: Awaited[] = [];
  const unknown: string[] = [];
  for (const reservation of job.reservations) {
    const short = shortOf(reservation);
    if (short === 0) continue;
    const { id, code, unit, leadDays } = reservation.part;
    const what = `${quantityText(short, unit)} of ${code}`;
    const due = expectedOn(coming.get(id) ?? [], job.id, short, fromDay);
    if (due === "unknown") unknown.push(`${what}, on order`);
    else if (due !== null) awaited.push({ what, at: at(due) });
    else if (leadDays === null) unknown.push(what);
    else awaited.push({ what, at: at(dayAfter(fromDay, leadDays)) });
  }
  return { awaited, unknown };
}

/** Jobs that have no booking ahead of them, for choosing one to book. */
export async function listUnbooked(shop: ShopHandle, take = 100) {
  return shop.read.job.findMany({
    where: {
      state: { in: ["waiting", "booked", "inWork", "ride"] },
      bookings: { none: { state: "held", endsAt: { gt: shop.now } } },
    },
    select: { id: true, number: true, title: true, customer: { select: { name: true } } },
    orderBy: { id: "asc" },
    take,
  });
}

/** Jobs that go on, for giving a booking its job: of one customer, or of anybody where nobody knows whose bike it is. */
export async function jobsToGive(shop: ShopHandle, customerId: number | null) {
  return shop.read.job.findMany({
    where: {
      state: { in: ["waiting", "booked", "inWork", "ride"] },
      ...(customerId === null ? {} : { customerId }),
    },
    select: { id: true, number: true, title: true, customer: { select: { name: true } } },
    orderBy: { id: "desc" },
    take: 100,
  });
}

/** The bays in use and the people who work on bikes, for choosing. */
export async function shopPeople(shop: ShopHandle): Promise<{ bays: Named[]; people: Named[] }> {
  const [bays, people] = await Promise.all([
    shop.read.bay.findMany({
      where: { active: true },
      select: { id: true, name: true },
      orderBy: { name: "asc" },
    }),
    workersOf(shop.read, "9999-12-31"),
  ]);
  return { bays, people: people.map(({ id, name }) => ({ id, name })) };
}

interface Named {
  id: number;
  name: string;
}
