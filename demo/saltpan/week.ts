import { getCard } from "@/lib/data/jobs/card";
import { addFinding } from "@/lib/data/jobs/findings";
import { stopTime } from "@/lib/data/jobs/time/run";
import { photograph } from "../photos";
import { arrive, bookSpot, type Spot, takeIn } from "../work/booking";
import { workCard } from "../work/card";
import { type Chance, chance as seeded } from "../work/chance";
import { closeDrawer } from "../work/closing";
import { sellOver } from "../work/counter";
import type { Course } from "../work/courses";
import { deposit, invoice, type Method, pay } from "../work/money";
import { EASED_NEEDLE, FOUND_NEEDLE, LEAN_QUARTER, measureNeedle } from "../work/needle";
import { draftQuote, send } from "../work/quoting";
import { finish, GOOD, rideOut } from "../work/ride";
import { Sales, type Wish } from "../work/sales";

/** The days around today: one course for each bike that is in the shop, or about to be. */
export class Week extends Sales {
  private spot(
    bay: number,
    role: Spot["role"],
    day: number,
    time: string,
    minutes: number,
    more: Partial<Spot> = {},
  ): Spot {
    return { bayId: this.stage.bays[bay] ?? 0, role, startsAt: this.at(day, time), minutes, ...more };
  }

  private book(when: Date, jobId: number, spot: Spot): Promise<void> {
    return bookSpot(this.stage, when, jobId, spot);
  }

  private async *arrived(wish: Wish, jobId: number, day: number, time: string): Course {
    const at = this.at(day, time);
    yield at;
    await arrive(this.stage, at, jobId, this.garage.odometer(wish.bike) + 40);
  }

  /** Looked over together as it came, and signed for. */
  private async *lookedOver(wish: Wish, jobId: number, day: number, time: string): Course {
    const at = this.at(day, time);
    yield at;
    await takeIn(this.stage, at, { jobId, odometerKm: this.garage.odometer(wish.bike) + 40 });
  }

  /** Someone walks in for a few parts. */
  async *overTheCounter(
    day: number,
    time: string,
    wanted: readonly (readonly [code: string, pieces: number])[],
    method: Method,
    givenMinor?: number,
  ): Course {
    const at = this.at(day, time);
    yield at;
    await sellOver(this.stage, at, wanted, method, givenMinor);
  }

  /** The drawer counted once everybody has gone home. */
  async *closed(day: number, offMinor = 0, reason = ""): Course {
    const at = this.at(day, "21:00");
    yield at;
    await closeDrawer(this.stage, at, offMinor, reason);
  }

  async *draft(wish: Wish, day: number, time: string): Course {
    yield* this.drafted(wish, day, time);
  }

  async *open(wish: Wish, day: number, time: string): Course {
    yield* this.sent(wish, day, time);
  }

  /** Agreed and not booked: the desk has yet to find a day, or parts are still to come. */
  async *waiting(wish: Wish, day: number): Course {
    yield* this.sold(wish, day, "by phone");
  }

  async *booked(
    wish: Wish,
    day: number,
    spot: readonly [bay: number, role: Spot["role"], day: number, time: string, minutes: number],
    drop?: string,
  ): Course {
    const { jobId, out } = yield* this.sold(wish, day);
    const at = this.at(day + 1, "11:30");
    yield at;
    const [bay, role, on, time, minutes] = spot;
    await this.book(
      at,
      jobId,
      this.spot(bay, role, on, time, minutes, drop ? { dropOffAt: this.at(on, drop) } : {}),
    );
    if (minutes > 150) await deposit(this.stage, at, jobId, Math.round(out.grossMinor / 400) * 100, "card");
  }

  /** Dropped off the evening before its day. */
  async *dropped(wish: Wish): Course {
    const { jobId } = yield* this.sold(wish, -6);
    const at = this.at(-5, "11:40");
    yield at;
    await this.book(at, jobId, this.spot(0, "tuner", 1, "08:00", 200, { dropOffAt: this.at(-1, "16:30") }));
    yield* this.arrived(wish, jobId, -1, "16:35");
  }

  /** Begun yesterday afternoon, in the middle of its plan this morning. */
  async *underway(wish: Wish): Course {
    const { jobId } = yield* this.sold(wish, -7);
    const at = this.at(-6, "11:10");
    yield at;
    await this.book(at, jobId, this.spot(0, "tuner", 0, "08:30", 200, { dropOffAt: this.at(-1, "15:30") }));
    yield* this.arrived(wish, jobId, -1, "15:30");
    yield* workCard(this.stage, {
      jobId,
      role: "tuner",
      from: this.at(-1, "16:10"),
      chance: this.chance(wish),
      steps: 3,
    });
    yield* workCard(this.stage, {
      jobId,
      role: "tuner",
      from: this.at(0, "08:30"),
      chance: this.chance(wish),
      steps: 13,
      stop: false,
    });
    yield* this.laidDown(jobId, "tuner", 0, "11:50");
  }

  /** Something was found yesterday; more work is quoted, and the answer has not come. */
  async *found(wish: Wish, text: string): Course {
    const { jobId } = yield* this.sold(wish, -8);
    const booking = this.at(-7, "10:40");
    yield booking;
    await this.book(booking, jobId, this.spot(1, "owner", -1, "08:15", 90));
    await this.book(booking, jobId, this.spot(1, "owner", 0, "10:30", 315));
    yield* this.lookedOver(wish, jobId, -1, "08:05");
    const at = yield* workCard(this.stage, {
      jobId,
      role: "owner",
      from: this.at(-1, "08:15"),
      chance: this.chance(wish),
      steps: 6,
    });
    const finder = this.stage.shop.as("owner", at);
    const { findingId } = await addFinding(finder, { jobId, text });
    await photograph(finder, { noun: "finding", nounId: findingId }, "hose", "Split where it turns");
    await addFinding(finder, { jobId, text: "Snorkel clip missing: the snorkel sits loose." });
    const quoted = this.at(-1, "11:20");
    yield quoted;
    const bikeId = await this.garage.bike(wish.bike, quoted);
    const bike = { noun: "bike", nounId: bikeId } as const;
    await photograph(finder, bike, "tank", "Scratch on the tank, there when it came");
    const extra = {
      bikeId,
      package: "RESET",
      take: ["vents"],
      leave: ["main-hex", "screw", "bowl"],
      variationOfId: jobId,
      findingId,
    };
    await send(this.stage, quoted, await draftQuote(this.stage, quoted, extra));
    yield* workCard(this.stage, {
      jobId,
      role: "owner",
      from: this.at(0, "10:35"),
      chance: this.chance(wish),
      steps: 1,
      stop: false,
    });
    yield* this.laidDown(jobId, "owner", 0, "16:50");
  }

  /** Closed up and to be ridden this morning. */
  async *toRide(wish: Wish): Course {
    const { jobId } = yield* this.sold(wish, -9);
    const at = this.at(-8, "11:00");
    yield at;
    await this.book(at, jobId, this.spot(1, "owner", -2, "08:00", 230));
    await this.book(at, jobId, this.spot(1, "owner", 0, "08:00", 120, { note: "Ride and as left" }));
    yield* this.arrived(wish, jobId, -2, "07:55");
    yield* workCard(this.stage, {
      jobId,
      role: "owner",
      from: this.at(-2, "08:00"),
      chance: this.chance(wish),
    });
  }

  /** Stopped by a needle that does not sit where it should. */
  async *stopped(wish: Wish): Course {
    const { jobId } = yield* this.sold(wish, -10, "at the counter");
    const at = this.at(-9, "14:10");
    yield at;
    await this.book(at, jobId, this.spot(0, "tuner", -1, "08:00", 225));
    yield* this.arrived(wish, jobId, -1, "07:50");
    const fail = { holdPoint: "Needle seat height", value: 2.85 };
    yield* workCard(this.stage, {
      jobId,
      role: "tuner",
      from: this.at(-1, "08:00"),
      chance: this.chance(wish),
      fail,
    });
    const again = this.at(-1, "12:50");
    yield again;
    await this.book(again, jobId, this.spot(0, "tuner", 2, "08:00", 120, { note: "Reseat the needle" }));
  }

  /** Ridden, signed, standing by the door for its owner. */
  async *ready(wish: Wish): Course {
    yield* this.finished(wish, -1, "12:30", { pickUpAt: this.at(0, "16:30") });
  }

  /** Fetched some days ago with its invoice; paid at the counter, or still within its days. */
  async *fetched(wish: Wish, day: number, time: string, method?: Method): Course {
    const { jobId, at } = yield* this.finished(wish, day, time, {});
    const handed = new Date(at.getTime() + 25 * 60_000);
    yield handed;
    const id = await invoice(this.stage, handed, jobId);
    if (method) await pay(this.stage, handed, id, method);
  }

  /** A needle without grooves, measured before the quote, eased, and corrected by a shim after the ride. */
  async *eased(wish: Wish, day: number, time: string): Course {
    const seen = this.at(day - 6, "09:30");
    yield seen;
    const bikeId = await this.garage.bike(wish.bike, seen);
    await measureNeedle(this.stage, seen, bikeId, FOUND_NEEDLE);
    const { jobId } = yield* this.sold(wish, day - 5);
    const start = this.at(day, time);
    yield start;
    await arrive(this.stage, start, jobId, this.garage.odometer(wish.bike) + 1040);
    const chance = this.chance(wish);
    const worked = yield* workCard(this.stage, { jobId, role: "tuner", from: start, chance });
    await measureNeedle(this.stage, worked, bikeId, EASED_NEEDLE, jobId);
    const ridden = yield* rideOut(this.stage, jobId, "tuner", worked, chance, [LEAN_QUARTER, GOOD]);
    const at = new Date(ridden.getTime() + 10 * 60_000);
    yield at;
    await finish(this.stage, at, jobId, "tuner", this.garage.odometer(wish.bike) + 1052);
    const handed = new Date(at.getTime() + 25 * 60_000);
    yield handed;
    await pay(this.stage, handed, await invoice(this.stage, handed, jobId), "card");
  }

  private async *finished(
    wish: Wish,
    day: number,
    time: string,
    more: Partial<Spot>,
  ): AsyncGenerator<Date, { jobId: number; at: Date }, void> {
    const { jobId } = yield* this.sold(wish, day - 6);
    const booked = this.at(day - 5, "15:00");
    yield booked;
    await this.book(booked, jobId, this.spot(1, "owner", day, time, 190, more));
    const start = this.at(day, time);
    yield start;
    await arrive(this.stage, start, jobId, this.garage.odometer(wish.bike) + 40);
    const chance = this.chance(wish);
    const worked = yield* workCard(this.stage, { jobId, role: "owner", from: start, chance });
    const ridden = yield* rideOut(this.stage, jobId, "owner", worked, chance, [GOOD]);
    const at = new Date(ridden.getTime() + 10 * 60_000);
    yield at;
    await finish(this.stage, at, jobId, "owner", this.garage.odometer(wish.bike) + 52);
    return { jobId, at };
  }

  private async *laidDown(jobId: number, role: Spot["role"], day: number, time: string): Course {
    const at = this.at(day, time);
    yield at;
    const shop = this.stage.shop.as(role, at);
    const running = (await getCard(shop, jobId))?.running;
    if (running?.jobId === jobId) await stopTime(shop, { entryId: running.id });
  }

  private chance(wish: Wish): Chance {
    return seeded(500 + wish.bike);
  }
}
