import fc from "fast-check";
import { expect, it } from "vitest";
import { recordArrival } from "@/lib/data/arrivals/record";
import { book, cancelBooking, moveBooking, restoreBooking } from "@/lib/data/bookings/book";
import { bookIn } from "@/lib/data/bookings/bookIn";
import { workersOf, workingMinutes } from "@/lib/data/bookings/facts";
import { cameAfterAll, comesLater, didNotCome, listLate } from "@/lib/data/bookings/late";
import { firstTimes, firstTimesFor } from "@/lib/data/bookings/times";
import type { ShopHandle } from "@/lib/db/shop";
import { Refusal } from "@/lib/domain/refusal";
import { overlaps } from "@/lib/domain/schedule/intervals";
import { comesAt } from "@/lib/domain/schedule/late";
import { spanOf } from "@/lib/domain/schedule/working";
import { ArrivalSchema } from "@/lib/schemas/arrivals";
import { oneJob } from "../support/oneJob";
import { as, type TwoShops, twoShops } from "../support/shops";

const HOUR = 3_600_000;
const QUARTER = 900_000;

/** What must be true of each booking by what was done so far. */
interface Model {
  now: number;
  readonly bookings: Map<number, { state: "held" | "cancelled"; missed: boolean; here: boolean }>;
}
interface Real extends TwoShops {
  readonly jobs: readonly number[];
  readonly bikeId: number;
}
type Act = fc.AsyncCommand<Model, Real>;

const at = ({ a }: Real, { now }: Model): ShopHandle => as(a, { now: new Date(now) });

/** An act on one of the bookings, whichever a number falls on; refused or done, and never half done. */
class On implements Act {
  constructor(
    readonly name: string,
    readonly which: number,
    readonly run_: (shop: ShopHandle, row: Row, real: Real) => Promise<unknown>,
    readonly then: (known: { state: "held" | "cancelled"; missed: boolean; here: boolean }) => void,
  ) {}
  check = (model: Readonly<Model>) => model.bookings.size > 0;
  async run(model: Model, real: Real): Promise<void> {
    const ids = [...model.bookings.keys()];
    const id = ids[this.which % ids.length] ?? 0;
    const row = await real.a.read.booking.findUniqueOrThrow({ where: { id } });
    const known = model.bookings.get(id);
    if (known && (await done(this.run_(at(real, model), row, real)))) this.then(known);
    await demandTrue(model, real);
  }
  toString = () => `${this.name}(${this.which})`;
}
type Row = Awaited<ReturnType<ShopHandle["read"]["booking"]["findUniqueOrThrow"]>>;

/** True where it was done, false where it was refused; anything else is a fault. */
async function done(act: Promise<unknown>): Promise<boolean> {
  return act.then(
    () => true,
    (cause: unknown) => {
      if (cause instanceof Refusal) return false;
      throw cause;
    },
  );
}

/** Books a job, or somebody without one, at one of the first times. */
class Book implements Act {
  constructor(
    readonly which: number,
    readonly slot: number,
    readonly dropOff: number,
  ) {}
  check = () => true;
  async run(model: Model, real: Real): Promise<void> {
    const shop = at(real, model);
    const jobId = real.jobs[this.which];
    const times =
      jobId === undefined ? await firstTimesFor(shop, 75, 4) : (await firstTimes(shop, jobId, 4)).times;
    const time = times[this.slot % Math.max(1, times.length)];
    if (!time) return;
    const { bayId, staffId } = time;
    const startsAt = new Date(time.startsAt);
    const wanted = { bayId, staffId, startsAt, dropOffAt: new Date(time.startsAt - this.dropOff * QUARTER) };
    // A time that is offered is never refused.
    const id =
      jobId === undefined
        ? await bookIn(shop, {
            ...wanted,
            minutes: 75,
            guestName: "Halvard Moe",
            guestPhone: "",
            words: "runs hot",
          })
        : await book(shop, { ...wanted, jobId });
    model.bookings.set(id, { state: "held", missed: false, here: false });
    await demandTrue(model, real);
  }
  toString = () => `book(${this.which}, ${this.slot})`;
}

class Wait implements Act {
  constructor(readonly hours: number) {}
  check = () => true;
  async run(model: Model, real: Real): Promise<void> {
    model.now += this.hours * HOUR;
    await demandTrue(model, real);
  }
  toString = () => `wait(${this.hours} h)`;
}

/** What must hold after every act, read from the database anew. */
async function demandTrue(model: Model, { a, b, ...rest }: Real): Promise<void> {
  const rows = await a.read.booking.findMany({ include: { job: true }, orderBy: { id: "asc" } });
  expect(rows.map(({ id }) => id)).toEqual([...model.bookings.keys()].sort((x, y) => x - y));
  const { zone } = await a.read.settings.findUniqueOrThrow({ where: { id: 1 }, select: { zone: true } });
  const people = await workersOf(a.read, "2026-01-01");
  const stretch = (row: Row) => ({ startsAt: row.startsAt.getTime(), endsAt: row.endsAt.getTime() });
  const held = rows.filter(({ state }) => state === "held");
  for (const row of rows) {
    const known = model.bookings.get(row.id);
    expect({ state: row.state, missed: row.noShowAt !== null }).toEqual({
      state: known?.state,
      missed: known?.missed,
    });
    if (known?.here) expect(row.arrivedAt).not.toBeNull();
    expect(row.dropOffAt === null || row.dropOffAt <= row.startsAt).toBe(true);
    expect(row.pickUpAt === null || row.pickUpAt >= row.endsAt).toBe(true);
    const person = people.find(({ id }) => id === row.staffId);
    if (!person) throw new Error("a booking of nobody");
    const working = { hours: person.hours, absences: person.absences, closures: [], zone };
    const minutes = workingMinutes(stretch(row), working);
    expect(spanOf(row.startsAt.getTime(), minutes, working)).toBe(row.endsAt.getTime());
  }
  for (const [n, one] of held.entries())
    for (const two of held.slice(n + 1))
      if (one.bayId === two.bayId || one.staffId === two.staffId)
        expect(overlaps(stretch(one), stretch(two))).toBe(false);
  for (const id of rest.jobs) {
    const { state } = await a.read.job.findUniqueOrThrow({ where: { id }, select: { state: true } });
    expect(state).toBe(held.some(({ jobId }) => jobId === id) ? "booked" : "waiting");
  }
  for (const one of await listLate(as(a, { now: new Date(model.now) }), 50)) {
    const row = held.find(({ id }) => id === one.id);
    expect(row && comesAt(row).getTime() <= model.now && !row.arrivedAt && !row.job?.arrivedAt).toBe(true);
  }
  expect(await b.read.booking.count()).toBe(0);
}

const nat = fc.nat(40);
const acts = [
  fc.tuple(fc.nat(4), fc.nat(3), fc.nat(8)).map(([which, slot, dropOff]) => new Book(which, slot, dropOff)),
  fc.integer({ min: 1, max: 30 }).map((hours) => new Wait(hours)),
  fc.tuple(nat, fc.integer({ min: -20, max: 60 }), fc.integer({ min: 1, max: 20 })).map(
    ([which, by, length]) =>
      new On(
        "move",
        which,
        (shop, { id, version, bayId, staffId, startsAt }) =>
          moveBooking(shop, {
            id,
            version,
            bayId,
            staffId,
            startsAt: new Date(startsAt.getTime() + by * QUARTER),
            minutes: length * 15,
          }),
        () => {},
      ),
  ),
  nat.map(
    (which) =>
      new On(
        "cancel",
        which,
        (shop, row) => cancelBooking(shop, row),
        (known) => {
          known.state = "cancelled";
        },
      ),
  ),
  nat.map(
    (which) =>
      new On(
        "take up",
        which,
        (shop, row) => restoreBooking(shop, row),
        (known) => {
          Object.assign(known, { state: "held", missed: false });
        },
      ),
  ),
  nat.map(
    (which) =>
      new On(
        "did not come",
        which,
        (shop, row) => didNotCome(shop, row),
        (known) => {
          Object.assign(known, { state: "cancelled", missed: true });
        },
      ),
  ),
  nat.map(
    (which) =>
      new On(
        "came after all",
        which,
        (shop, row) => cameAfterAll(shop, row),
        (known) => {
          Object.assign(known, { state: "held", missed: false });
        },
      ),
  ),
  fc.tuple(nat, fc.integer({ min: 1, max: 30 })).map(
    ([which, hours]) =>
      new On(
        "comes later",
        which,
        (shop, row) => comesLater(shop, { ...row, at: new Date(shop.now.getTime() + hours * HOUR) }),
        () => {},
      ),
  ),
  nat.map(
    (which) =>
      new On(
        "is here",
        which,
        (shop, { id, jobId }, { bikeId }) =>
          recordArrival(
            shop,
            ArrivalSchema.parse({
              bookingId: String(id),
              ...(jobId === null ? { bikeId: String(bikeId) } : {}),
            }),
          ),
        (known) => {
          known.here = true;
        },
      ),
  ),
];

it("two weeks of booking, moving, coming, not coming and taking back leave the diary true after every act", async () => {
  await fc.assert(
    fc.asyncProperty(fc.commands(acts, { maxCommands: 40, size: "max" }), async (commands) => {
      const shops = await twoShops();
      await shops.a.write((tx) => tx.bay.create({ data: { name: "Bay two" } }));
      const jobs: number[] = [];
      for (const minutes of [60, 150, 600]) jobs.push((await oneJob(shops.a, { minutes })).jobId);
      const { bikeId } = await shops.a.read.job.findUniqueOrThrow({ where: { id: jobs[0] ?? 0 } });
      await fc.asyncModelRun(
        () => ({
          model: { now: shops.a.now.getTime(), bookings: new Map() } satisfies Model,
          real: { ...shops, jobs, bikeId },
        }),
        commands,
      );
    }),
    { numRuns: 3 },
  );
}, 60_000);
