import ICAL from "ical.js";
import { beforeEach, describe, expect, it } from "vitest";
import { book, cancelBooking, moveBooking, restoreBooking } from "@/lib/data/bookings/book";
import { endShopFeed, fedBookings, makeShopFeed, shopFeedSince } from "@/lib/data/bookings/feed";
import { blockOf, getBooking, getDay } from "@/lib/data/bookings/list";
import { firstTimes, listUnbooked } from "@/lib/data/bookings/times";
import { enclosedWith } from "@/lib/data/mail/attachments";
import { createPart } from "@/lib/data/parts/save";
import { reserveIn } from "@/lib/data/stock/reservations";
import type { ShopHandle } from "@/lib/db/shop";
import { tokenHash } from "@/lib/db/token";
import { printEnclosed } from "@/lib/documents/enclosed";
import { instantOf } from "@/lib/domain/schedule/localTime";
import { BookingsQuerySchema, BookSchema } from "@/lib/schemas/bookings";
import { NewPartSchema } from "@/lib/schemas/parts";
import { oneJob } from "../support/oneJob";
import { as, twoShops } from "../support/shops";

const ZONE = "Australia/Sydney";
// Wednesday 25 November 2026, 11:30 on the shop's clock; people work 08:00 to 12:00 and 12:30 to 16:30.
const NOW = new Date("2026-11-25T00:30:00Z");

let a: ShopHandle;
let b: ShopHandle;
let bay: number;
let other: number;
let owner: number;
let tuner: number;

const at = (day: string, time: string) => new Date(instantOf(day, time, ZONE));

beforeEach(async () => {
  ({ a, b } = await twoShops(NOW));
  await a.write(async (tx) => {
    await tx.settings.update({ where: { id: 1 }, data: { zone: ZONE } });
    bay = (await tx.bay.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } })).id;
    other = (await tx.bay.create({ data: { name: "Bay two" } })).id;
    const first = await tx.staff.findFirstOrThrow({
      select: { id: true, hours: true },
      orderBy: { id: "asc" },
    });
    owner = first.id;
    tuner = (
      await tx.staff.create({
        data: { personId: "tuner", name: "Bea Holt", role: "tuner", hours: first.hours ?? {} },
      })
    ).id;
  });
});

const wanted = (jobId: number, startsAt: Date, more: object = {}) => ({
  jobId,
  bayId: bay,
  staffId: owner,
  startsAt,
  ...more,
});

describe("booking a job", () => {
  it("ends over working time, through the break and the night", async () => {
    const job = await oneJob(a, { minutes: 360 });
    const id = await book(a, wanted(job.jobId, at("2026-11-26", "10:00")));
    const made = await getBooking(a, id);
    // Thursday 10:00-12:00 and 12:30-16:30 are 360 minutes.
    expect(made?.endsAt).toEqual(at("2026-11-26", "16:30"));
    const late = await oneJob(a, { minutes: 90 });
    const next = await getBooking(a, await book(a, wanted(late.jobId, at("2026-11-27", "16:00"))));
    // Friday has 30 minutes left, so the rest is Monday's first hour.
    expect(next?.endsAt).toEqual(at("2026-11-30", "09:00"));
    expect(next?.minutes).toBe(90);
  });

  it("marks the job booked and puts a confirmation into the mail queue when the customer has an address", async () => {
    const job = await oneJob(a, { email: "oda@example.test" });
    await book(a, wanted(job.jobId, at("2026-11-26", "08:00"), { dropOffAt: at("2026-11-26", "07:45") }));
    expect(
      (await a.read.job.findUniqueOrThrow({ where: { id: job.jobId }, select: { state: true } })).state,
    ).toBe("booked");
    const mails = await a.read.mail.findMany({ orderBy: { id: "asc" } });
    expect(mails).toHaveLength(1);
    expect(mails[0]).toMatchObject({ to: "oda@example.test", state: "waiting" });
    expect(mails[0]?.text).toContain(`Job ${job.number}`);
    expect(mails[0]?.text).toContain("07:45");
    expect(mails[0]?.text).toContain("08:00");
    const silent = await oneJob(a);
    await book(a, wanted(silent.jobId, at("2026-11-30", "08:00")));
    expect(await a.read.mail.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toHaveLength(1);
  });

  it("counts the minutes of the steps still to do", async () => {
    const job = await oneJob(a, { minutes: 300 });
    await a.write((tx) =>
      tx.step.createMany({
        data: [
          {
            jobId: job.jobId,
            position: 1,
            kind: "operation",
            key: "x",
            name: "X",
            minutes: 200,
            tools: [],
            cautions: [],
            state: "done",
          },
          {
            jobId: job.jobId,
            position: 2,
            kind: "operation",
            key: "y",
            name: "Y",
            minutes: 60,
            tools: [],
            cautions: [],
          },
        ],
      }),
    );
    const id = await book(a, wanted(job.jobId, at("2026-11-26", "08:00")));
    expect((await getBooking(a, id))?.endsAt).toEqual(at("2026-11-26", "09:00"));
  });

  it("is made once for one key", async () => {
    const job = await oneJob(a);
    const input = wanted(job.jobId, at("2026-11-26", "08:00"), { key: "book-once-1" });
    expect(await book(a, input)).toBe(await book(a, input));
  });

  it("names what is in the way of a bay and of a person", async () => {
    const first = await oneJob(a, { minutes: 120 });
    const second = await oneJob(a, { minutes: 120 });
    await book(a, wanted(first.jobId, at("2026-11-26", "09:00")));
    await expect(
      book(a, wanted(second.jobId, at("2026-11-26", "10:30"), { staffId: tuner })),
    ).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringMatching(
        new RegExp(`^Bay one has job ${first.number} from Thursday.*09:00 to 11:00\\.$`),
      ),
      fields: { bayId: expect.any(String) },
    });
    await expect(
      book(a, wanted(second.jobId, at("2026-11-26", "08:00"), { bayId: other })),
    ).rejects.toMatchObject({
      message: expect.stringMatching(new RegExp(`^Test Owner has job ${first.number}`)),
    });
    // One that starts as the other ends is not in the way.
    await book(a, wanted(second.jobId, at("2026-11-26", "11:00")));
    expect(
      (await a.read.job.findUniqueOrThrow({ where: { id: second.jobId }, select: { state: true } })).state,
    ).toBe("booked");
  });

  it("refuses overlaps when twenty are booked at once: exactly one gets the time", async () => {
    const jobs = [];
    for (let i = 0; i < 20; i++) jobs.push(await oneJob(a, { minutes: 60 }));
    const answers = await Promise.allSettled(
      jobs.map((job, i) => book(a, wanted(job.jobId, at("2026-11-26", i % 2 ? "09:00" : "09:30")))),
    );
    expect(answers.filter((answer) => answer.status === "fulfilled")).toHaveLength(1);
    for (const answer of answers)
      if (answer.status === "rejected") expect(String(answer.reason.message)).toMatch(/^Bay one has job \d+/);
    const states = await a.read.job.findMany({
      where: { state: "booked" },
      select: { id: true },
      orderBy: { id: "asc" },
    });
    expect(states).toHaveLength(1);
  });

  it("refuses times outside working hours, over closures, and over already, saying when it goes", async () => {
    const job = await oneJob(a, { minutes: 60 });
    await expect(book(a, wanted(job.jobId, at("2026-11-26", "18:00")))).rejects.toMatchObject({
      remedy: expect.stringMatching(/Friday.*08:00/),
    });
    await a.write((tx) =>
      tx.closure.create({ data: { fromDay: "2026-11-26", toDay: "2026-11-27", why: "stocktaking" } }),
    );
    await expect(book(a, wanted(job.jobId, at("2026-11-26", "09:00")))).rejects.toMatchObject({
      remedy: expect.stringMatching(/Monday.*08:00/),
    });
    await expect(book(a, wanted(job.jobId, at("2026-11-24", "09:00")))).rejects.toThrow(/over already/);
    await expect(
      book(a, wanted(job.jobId, at("2026-11-30", "09:00"), { dropOffAt: at("2026-11-30", "09:15") })),
    ).rejects.toThrow(/come after/);
    await expect(
      book(a, wanted(job.jobId, at("2026-11-30", "09:00"), { pickUpAt: at("2026-11-30", "09:30") })),
    ).rejects.toThrow(/before the work ends/);
    expect(await a.read.booking.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toEqual([]);
  });
});

describe("changing a booking", () => {
  it("moves with its minutes, not onto another, and tells the second of two people", async () => {
    const job = await oneJob(a, { minutes: 120, email: "oda@example.test" });
    const id = await book(a, wanted(job.jobId, at("2026-11-26", "09:00")));
    const taken = await oneJob(a, { minutes: 120 });
    await book(a, wanted(taken.jobId, at("2026-11-27", "09:00")));
    const move = { id, version: 1, bayId: bay, staffId: owner };
    await expect(moveBooking(a, { ...move, startsAt: at("2026-11-27", "10:00") })).rejects.toThrow(
      `job ${taken.number}`,
    );
    // Its own old time is not in the way.
    await moveBooking(a, { ...move, startsAt: at("2026-11-26", "10:00") });
    const moved = await getBooking(a, id);
    expect(moved).toMatchObject({
      startsAt: at("2026-11-26", "10:00"),
      endsAt: at("2026-11-26", "12:00"),
      version: 2,
    });
    await expect(moveBooking(a, { ...move, startsAt: at("2026-11-26", "08:00") })).rejects.toMatchObject({
      kind: "conflict",
      message: expect.stringMatching(/Test Owner changed this booking meanwhile: it is .*10:00/),
    });
    const mails = await a.read.mail.findMany({ select: { subject: true }, orderBy: { id: "asc" } });
    expect(mails.map((mail) => mail.subject.split(":")[0])).toEqual(["Booked", "Moved"]);
  });

  it("tells the customer's calendar: one entry that moves, and goes when the booking goes (read by ical.js)", async () => {
    const job = await oneJob(a, { minutes: 120, email: "oda@example.test" });
    const id = await book(
      a,
      wanted(job.jobId, at("2026-11-26", "09:00"), { dropOffAt: at("2026-11-26", "08:15") }),
    );
    const move = { id, version: 1, bayId: bay, staffId: owner, startsAt: at("2026-11-27", "10:00") };
    await moveBooking(a, { ...move, dropOffAt: null });
    await cancelBooking(a, { id, version: 2, why: "rain" });
    const told = [];
    for (const mail of await a.read.mail.findMany({ select: { id: true }, orderBy: { id: "asc" } })) {
      const [enclosed] = await enclosedWith(a, mail.id);
      if (!enclosed) throw new Error("A mail about a booking carries no calendar file.");
      const { type, content } = await printEnclosed(enclosed);
      expect(type).toBe("text/calendar");
      const [event] = new ICAL.Component(
        ICAL.parse(new TextDecoder().decode(content)) as unknown[],
      ).getAllSubcomponents("vevent");
      told.push({
        uid: event?.getFirstPropertyValue("uid"),
        sequence: event?.getFirstPropertyValue("sequence"),
        status: event?.getFirstPropertyValue("status"),
        from: event && new ICAL.Event(event).startDate.toJSDate(),
      });
    }
    const uid = `visit-${id}@${a.slug}`;
    expect(told).toEqual([
      { uid, sequence: 1, status: "CONFIRMED", from: at("2026-11-26", "08:15") },
      { uid, sequence: 2, status: "CONFIRMED", from: at("2026-11-27", "10:00") },
      { uid, sequence: 3, status: "CANCELLED", from: at("2026-11-27", "10:00") },
    ]);
  });

  it("cancels, lets the job wait again, and can be taken up while its time is free", async () => {
    const job = await oneJob(a, { minutes: 120 });
    const id = await book(a, wanted(job.jobId, at("2026-11-26", "09:00")));
    await cancelBooking(a, { id, version: 1, why: "rain" });
    expect(
      (await a.read.job.findUniqueOrThrow({ where: { id: job.jobId }, select: { state: true } })).state,
    ).toBe("waiting");
    await restoreBooking(a, { id, version: 2 });
    expect(await getBooking(a, id)).toMatchObject({
      state: "held",
      startsAt: at("2026-11-26", "09:00"),
      endsAt: at("2026-11-26", "11:00"),
    });
    await cancelBooking(a, { id, version: 3 });
    const next = await oneJob(a, { minutes: 120 });
    await book(a, wanted(next.jobId, at("2026-11-26", "09:00")));
    await expect(restoreBooking(a, { id, version: 4 })).rejects.toThrow(`job ${next.number}`);
  });
});

describe("first times", () => {
  it("find the earliest bay and person, and say what each waits for", async () => {
    const blocking = await oneJob(a, { minutes: 240 });
    await book(a, wanted(blocking.jobId, at("2026-11-26", "08:00")));
    const job = await oneJob(a, { minutes: 240 });
    const { times, minutes } = await firstTimes(a, job.jobId, 3);
    expect(minutes).toBe(240);
    // Now is 11:30 on Wednesday: the rest of today holds 30 minutes and the afternoon, 270 in all.
    expect(times[0]).toMatchObject({
      startsAt: NOW.getTime(),
      endsAt: at("2026-11-25", "16:00").getTime(),
      waitsFor: [],
    });
    for (const time of times) {
      const id = await book(a, {
        jobId: job.jobId,
        bayId: time.bayId,
        staffId: time.staffId,
        startsAt: new Date(time.startsAt),
      });
      expect((await getBooking(a, id))?.endsAt.getTime()).toBe(time.endsAt);
      await cancelBooking(a, { id, version: 1 });
    }
  });

  it("wait for short parts by their supplier's lead time, and name those nobody knows of", async () => {
    const job = await oneJob(a, { minutes: 60 });
    const make = (code: string, leadDays: string) =>
      createPart(a, NewPartSchema.parse({ code, name: "Jet", kind: "other", unit: "each", leadDays }));
    const soon = await make("MJ-125", "5");
    const never = await make("PJ-45", "");
    for (const partId of [soon, never])
      await a.write((tx) => reserveIn(tx, a, { jobId: job.jobId, partId, wantedMilli: 1_000 }));
    const { times, unknown } = await firstTimes(a, job.jobId, 1);
    expect(unknown).toEqual(["1 of PJ-45"]);
    expect(times[0]).toMatchObject({
      // Five days on, by when the shop has its deliveries: noon, and the break goes before.
      startsAt: at("2026-11-30", "12:30").getTime(),
      waitsFor: [{ kind: "awaited", what: "1 of MJ-125", until: at("2026-11-30", "12:00").getTime() }],
    });
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { deliveryBy: "09:30" } }));
    expect((await firstTimes(a, job.jobId, 1)).times[0]).toMatchObject({
      startsAt: at("2026-11-30", "09:30").getTime(),
    });
  });

  it("are of people who work at the grades that are still to do, and say whom they leave out", async () => {
    const job = await oneJob(a, { minutes: 60 });
    const step = (position: number, grade: string, state: "todo" | "done") => ({
      jobId: job.jobId,
      position,
      kind: "operation" as const,
      key: `x${position}`,
      name: "X",
      minutes: 30,
      grade,
      tools: [],
      cautions: [],
      state,
    });
    await a.write(async (tx) => {
      await tx.labourGrade.create({
        data: { code: "fine", name: "Fine work", ratePerHourMinor: 12_000, costPerHourMinor: 6_000 },
      });
      await tx.step.createMany({ data: [step(1, "fine", "todo"), step(2, "weld", "done")] });
      await tx.staff.update({ where: { id: owner }, data: { grades: ["bench"] } });
      await tx.staff.update({ where: { id: tuner }, data: { grades: ["fine", "bench"] } });
    });
    const found = await firstTimes(a, job.jobId, 4);
    expect(new Set(found.times.map(({ staffId }) => staffId))).toEqual(new Set([tuner]));
    expect(found).toMatchObject({ grades: ["Fine work"], cannot: ["Test Owner"] });
    await a.write((tx) => tx.staff.update({ where: { id: tuner }, data: { grades: ["bench"] } }));
    expect((await firstTimes(a, job.jobId, 4)).times).toEqual([]);
    // Nobody said what they work at in the other shop: everybody is offered.
    const elsewhere = await oneJob(b, { minutes: 60 });
    expect((await firstTimes(b, elsewhere.jobId, 1)).cannot).toEqual([]);
  });

  it("leave out absences, and people who do not work on bikes", async () => {
    await a.write(async (tx) => {
      await tx.absence.create({ data: { staffId: owner, fromDay: "2026-11-25", toDay: "2026-11-30" } });
      await tx.staff.update({ where: { id: tuner }, data: { role: "desk" } });
    });
    const job = await oneJob(a, { minutes: 60 });
    const { times } = await firstTimes(a, job.jobId, 1);
    expect(times[0]).toMatchObject({ staffId: owner, startsAt: at("2026-12-01", "08:00").getTime() });
  });

  it("are asked for jobs that have none ahead", async () => {
    const job = await oneJob(a);
    expect((await listUnbooked(a)).map((one) => one.id)).toEqual([job.jobId]);
    await book(a, wanted(job.jobId, at("2026-11-26", "08:00")));
    expect(await listUnbooked(a)).toEqual([]);
  });
});

describe("a booking put elsewhere on the board", () => {
  it("takes its drop-off along with its start and its pick-up with its end, and keeps its note", async () => {
    const job = await oneJob(a, { minutes: 120 });
    const around = {
      dropOffAt: at("2026-11-26", "07:45"),
      pickUpAt: at("2026-11-26", "11:00"),
      note: "Key in the box",
    };
    const id = await book(a, wanted(job.jobId, at("2026-11-26", "08:00"), around));
    const put = { bayId: bay, staffId: owner };
    await moveBooking(a, { id, version: 1, ...put, startsAt: at("2026-11-26", "08:00"), minutes: 240 });
    const rowOf = () => a.read.booking.findUniqueOrThrow({ where: { id } });
    expect(await rowOf()).toMatchObject({
      endsAt: at("2026-11-26", "12:00"),
      dropOffAt: at("2026-11-26", "07:45"),
      pickUpAt: at("2026-11-26", "13:00"),
      note: "Key in the box",
    });
    // Friday 14:00: 150 minutes there, 90 on Monday.
    await moveBooking(a, { id, version: 2, ...put, startsAt: at("2026-11-27", "14:00"), minutes: 240 });
    expect(await rowOf()).toMatchObject({
      endsAt: at("2026-11-30", "09:30"),
      dropOffAt: at("2026-11-27", "13:45"),
      pickUpAt: at("2026-11-30", "10:30"),
    });
  });

  it("is refused with what is in the way and when bay and person are next free together", async () => {
    const first = await oneJob(a, { minutes: 240 });
    await book(a, { ...wanted(first.jobId, at("2026-11-27", "12:30")), bayId: other });
    const second = await oneJob(a, { minutes: 60 });
    const id = await book(a, wanted(second.jobId, at("2026-11-26", "08:00")));
    await expect(
      moveBooking(a, {
        id,
        version: 1,
        bayId: other,
        staffId: owner,
        startsAt: at("2026-11-27", "13:00"),
        minutes: 60,
      }),
    ).rejects.toMatchObject({
      message: expect.stringMatching(new RegExp(`^Bay two has job ${first.number} from Friday`)),
      remedy: expect.stringMatching(/^Next free Monday,? 30 November,? 08:00\./),
      kind: "conflict",
    });
    expect(await a.read.booking.findUniqueOrThrow({ where: { id } })).toMatchObject({
      version: 1,
      bayId: bay,
    });
  });

  it("is on a day that says what is sold, held and free, and by whom, in each shop's own hours", async () => {
    const job = await oneJob(a, { minutes: 120 });
    await book(a, wanted(job.jobId, at("2026-11-26", "08:00")));
    const view = await getDay(a, "2026-11-26", {});
    // Two people of eight hours in two bays.
    expect(view.load).toEqual({ capacity: 960, sold: 120, held: 0, free: 840, over: 0 });
    expect(view.bookings).toMatchObject([{ minutes: 120 }]);
    expect((await getDay(b, "2026-11-26", {})).load).toMatchObject({ sold: 0 });
  });
});

describe("the whole shop's calendar", () => {
  it("has everybody's bookings, and its address ends with a new one or by hand, in that shop alone", async () => {
    const [one, two] = [await oneJob(a), await oneJob(a)];
    await book(a, wanted(one.jobId, at("2026-11-26", "08:00")));
    await book(a, { ...wanted(two.jobId, at("2026-11-26", "08:00")), bayId: other, staffId: tuner });
    expect(await fedBookings(a, owner)).toHaveLength(1);
    expect((await fedBookings(a, null)).map(({ staff }) => staff.name)).toEqual(["Test Owner", "Bea Holt"]);
    expect(await fedBookings(b, null)).toEqual([]);
    expect(await shopFeedSince(a)).toBeNull();
    const [first, second] = [await makeShopFeed(a), await makeShopFeed(a)];
    expect(second).not.toBe(first);
    expect(
      await a.read.shopCalendar.findMany({ select: { tokenHash: true }, orderBy: { id: "asc" } }),
    ).toEqual([{ tokenHash: tokenHash(second) }]);
    expect(await shopFeedSince(b)).toBeNull();
    await endShopFeed(a);
    expect(await shopFeedSince(a)).toBeNull();
  });
});

describe("the day", () => {
  it("has 23 hours when the clocks go forward, and a shift across the change loses one", async () => {
    const september = as(a, { now: new Date("2026-09-30T00:00:00Z") });
    await a.write((tx) =>
      tx.staff.update({ where: { id: owner }, data: { hours: { "7": [{ from: "00:00", to: "08:00" }] } } }),
    );
    const job = await oneJob(a, { minutes: 420 });
    const id = await book(september, wanted(job.jobId, at("2026-10-04", "00:00")));
    const made = await getBooking(september, id);
    // Sydney 2026-10-04: 02:00 becomes 03:00 (IANA), so 00:00 to 08:00 are seven hours.
    expect(made?.endsAt).toEqual(new Date("2026-10-03T21:00:00Z"));
    expect(made?.minutes).toBe(420);
    const view = await getDay(september, "2026-10-04", {});
    expect(view.bookings.map((row) => blockOf(row, view.day, view.zone))).toEqual([{ from: 0, to: 480 }]);
    expect(view.rule).toEqual({ from: 0, to: 480 });
  });

  it("shows a booking over night on both days and in its week, by the shop's clock", async () => {
    const job = await oneJob(a, { minutes: 300 });
    await book(a, wanted(job.jobId, at("2026-11-26", "14:30")));
    const first = await getDay(a, "2026-11-26", {});
    const second = await getDay(a, "2026-11-27", { bay });
    expect(first.bookings.map((row) => blockOf(row, first.day, ZONE))).toEqual([{ from: 870, to: 1440 }]);
    expect(second.bookings.map((row) => blockOf(row, second.day, ZONE))).toEqual([{ from: 0, to: 660 }]);
    expect(first.days.filter((one) => one.bookings.length > 0).map((one) => one.day)).toEqual([
      "2026-11-26",
      "2026-11-27",
    ]);
    expect((await getDay(a, "2026-11-26", { bay: other })).bookings).toEqual([]);
    expect((await getDay(a, undefined, {})).nowMinute).toBe(11 * 60 + 30);
  });
});

describe("the form's values", () => {
  it("take an offered time, a time of one's own, and say what is missing", () => {
    expect(BookSchema.parse({ jobId: "4", choice: "1000.2.3" })).toMatchObject({
      jobId: 4,
      choice: { startsAt: 1000, bayId: 2, staffId: 3 },
    });
    expect(
      BookSchema.parse({
        jobId: "4",
        choice: "own",
        day: "2026-11-26",
        time: "08:30",
        bayId: "1",
        staffId: "2",
        minutes: "",
      }),
    ).toMatchObject({ choice: "own", day: "2026-11-26", minutes: undefined });
    const missing = BookSchema.safeParse({
      jobId: "4",
      choice: "own",
      day: "",
      time: "08:30",
      bayId: "",
      staffId: "2",
    });
    expect(missing.error?.issues.map((issue) => issue.path.join(".")).sort()).toEqual(["bayId", "day"]);
    expect(BookingsQuerySchema.parse({ day: "2026-02-30", bay: "x" })).toEqual({
      day: undefined,
      bay: undefined,
    });
    expect(BookSchema.safeParse({ jobId: "4" }).error?.issues[0]?.message).toBe("Choose a time.");
  });
});

it("leaves the other shop's diary empty", async () => {
  const job = await oneJob(a);
  await book(a, wanted(job.jobId, at("2026-11-26", "08:00")));
  expect(await b.read.booking.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toEqual([]);
  expect(await b.read.mail.findMany({ select: { id: true }, orderBy: { id: "asc" } })).toEqual([]);
});
