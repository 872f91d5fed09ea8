import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { dayIn, daysAfter, dayWords, endOfDay } from "@/lib/domain/schedule/days";
import { firstTimes } from "@/lib/domain/schedule/firstTimes";
import { lengthWithin, merged } from "@/lib/domain/schedule/intervals";
import {
  dayAfter,
  daysBetween,
  hoursInDay,
  instantOf,
  minuteOfDay,
  weekdayOf,
} from "@/lib/domain/schedule/localTime";
import { isReminderDue, type ReminderFacts } from "@/lib/domain/schedule/reminder";
import type { Asked } from "@/lib/domain/schedule/slots";
import { printedVisit, visitOf } from "@/lib/domain/schedule/visit";
import { endWithin, spanOf, type WorkingTime, workingIntervals } from "@/lib/domain/schedule/working";
import { visitWords } from "@/lib/words/visit";

const at = (text: string) => Date.parse(text);
const MINUTE = 60_000;

describe("days", () => {
  it("are the shop's own: late in the evening in London it is tomorrow in Sydney", () => {
    expect(dayIn("Australia/Sydney", new Date("2026-11-25T22:00Z"))).toBe("2026-11-26");
    expect(dayIn("Europe/London", new Date("2026-11-25T22:00Z"))).toBe("2026-11-25");
    expect(endOfDay("2026-11-25", "Europe/Oslo")).toEqual(new Date("2026-11-25T23:00Z"));
    expect(endOfDay("2026-12-31", "UTC")).toEqual(new Date("2027-01-01T00:00Z"));
  });

  // Gregorian calendar: 2028 is a leap year, 2026 is not.
  it("are counted over months, years and leap days", () => {
    expect(daysAfter("2026-12-30", 3)).toBe("2027-01-02");
    expect(dayAfter("2028-02-28")).toBe("2028-02-29");
    expect(dayAfter("2026-03-01", -1)).toBe("2026-02-28");
    expect([daysBetween("2026-01-01", "2027-01-01"), daysBetween("2028-03-01", "2028-02-28")]).toEqual([
      365, -2,
    ]);
    // 2026-11-25 is a Wednesday, 2026-11-29 a Sunday (ISO 8601).
    expect(["2026-11-25", "2026-11-29", "2026-11-30"].map(weekdayOf)).toEqual([3, 7, 1]);
  });

  it("are written as the locale writes them (CLDR)", () => {
    expect(dayWords("2026-12-04", "en-AU")).toBe("4 Dec 2026");
    expect(dayWords("2026-12-04", "en-US")).toBe("Dec 4, 2026");
    expect(dayWords("2026-12-04", "nb-NO")).toBe("4. des. 2026");
    expect(dayWords("2026-01-31", "en-AU")).toBe("31 Jan 2026");
  });

  it("and times that do not exist are refused by what is wrong with them", () => {
    for (const day of ["2026-13-01", "2026-1-01", "x2026-01-01", "2026-01-01x", "", "20260101"])
      expect(() => weekdayOf(day), day).toThrow(`“${day}” is no day.`);
    for (const time of ["24:01", "8:00", "08:60", "x08:00", "08:00x", "24:00x", "x24:00", "0800", "19:5"])
      expect(() => instantOf("2026-01-01", time, "UTC"), time).toThrow(`“${time}” is no time of day.`);
    expect(instantOf("2026-01-01", "23:59", "UTC")).toBe(at("2026-01-01T23:59Z"));
    expect(instantOf("2026-01-01", "19:30", "UTC")).toBe(at("2026-01-01T19:30Z"));
    expect(() => hoursInDay("2026-01-01", "Nowhere")).toThrow("“Nowhere” is not known");
    expect(() => minuteOfDay(0, "Nowhere")).toThrow(Refusal);
    expect(() => dayIn("UTC", new Date(Number.NaN))).toThrow("out of reach");
    expect(minuteOfDay(at("2026-01-01T09:41:59Z"), "UTC")).toBe(581);
  });
});

describe("stretches", () => {
  it("without length are dropped, one inside another is swallowed, and order does not matter", () => {
    const s = (startsAt: number, endsAt: number) => ({ startsAt, endsAt });
    expect(merged([s(5, 9), s(0, 5), s(7, 7), s(20, 10), s(12, 20), s(13, 14)])).toEqual([
      s(0, 9),
      s(12, 20),
    ]);
    expect(lengthWithin([s(0, 10), s(20, 30)], s(5, 22))).toBe(7);
    expect(lengthWithin([s(0, 10)], s(10, 20))).toBe(0);
  });
});

const hours = { 1: [{ from: "08:00", to: "12:00" }], 3: [{ from: "08:00", to: "12:00" }] };
const working: WorkingTime = { hours, closures: [], absences: [], zone: "UTC" };
// 2026-03-02 is a Monday.
const monday = at("2026-03-02T08:00Z");

describe("working time over days", () => {
  it("is nothing where the end is the start or before it, and keeps both ends' days", () => {
    expect(workingIntervals(monday, monday, hours, [], [], "UTC")).toEqual([]);
    expect(workingIntervals(monday, monday - 1, hours, [], [], "UTC")).toEqual([]);
    expect(workingIntervals(monday, at("2026-03-04T09:00Z"), hours, [], [], "UTC")).toHaveLength(2);
    expect(workingIntervals(monday, at("2026-03-04T08:00Z"), hours, [], [], "UTC")).toHaveLength(1);
  });

  it("has closures and absences with their first and last day in them", () => {
    const off = (fromDay: string, toDay: string) => [{ fromDay, toDay }];
    const left = (closures: ReturnType<typeof off>, absences: ReturnType<typeof off> = []) =>
      workingIntervals(monday, at("2026-03-05T00:00Z"), hours, closures, absences, "UTC").length;
    expect(left(off("2026-03-02", "2026-03-02"))).toBe(1);
    expect(left(off("2026-03-01", "2026-03-02"), off("2026-03-04", "2026-03-06"))).toBe(0);
    expect(left(off("2026-03-03", "2026-03-03"))).toBe(2);
  });

  it("refuses a shift that ends as it begins, and takes the night as two", () => {
    const shift = (from: string, to: string) => () =>
      workingIntervals(monday, monday + MINUTE, { 1: [{ from, to }] }, [], [], "UTC");
    expect(shift("08:00", "08:00")).toThrow("end before they begin");
    const night = { 1: [{ from: "22:00", to: "24:00" }], 2: [{ from: "00:00", to: "06:00" }] };
    expect(workingIntervals(monday, at("2026-03-04T00:00Z"), night, [], [], "UTC")).toEqual([
      { startsAt: at("2026-03-02T22:00Z"), endsAt: at("2026-03-03T06:00Z") },
    ]);
  });

  it("ends work in the shift that it fills to the minute, and in the next when a minute more", () => {
    expect(spanOf(monday, 240, working)).toBe(at("2026-03-02T12:00Z"));
    expect(spanOf(monday, 241, working)).toBe(at("2026-03-04T08:01Z"));
    // 40 shifts of four hours are 20 weeks away: the search goes on beyond its first days.
    expect(spanOf(monday, 40 * 240, working)).toBe(at("2026-07-15T12:00Z"));
    expect(() => spanOf(monday, 240 * 3, working, 5)).toThrow(
      "720 minutes of work do not fit into the next 5 days.",
    );
    expect(spanOf(monday, 240 * 2, working, 5)).toBe(at("2026-03-04T12:00Z"));
    expect(() => spanOf(monday, 0.5, working)).toThrow("minutes of work is 0.5");
    expect(endWithin([{ startsAt: 0, endsAt: 5 * MINUTE }], 5 * MINUTE, 1)).toBeNull();
    expect(endWithin([{ startsAt: 0, endsAt: 5 * MINUTE }], 4 * MINUTE, 1)).toBe(5 * MINUTE);
  });
});

describe("first times", () => {
  const maja = { id: 1, name: "Maja", hours, absences: [] };
  const ask = (more: Partial<Asked> = {}) =>
    firstTimes({
      minutes: 60,
      bays: [{ id: 10, name: "Bay" }],
      people: [maja],
      bookings: [],
      closures: [],
      notBefore: monday,
      zone: "UTC",
      count: 3,
      ...more,
    });
  const starts = (more: Partial<Asked> = {}) =>
    ask(more).map((s) => new Date(s.startsAt).toISOString().slice(5, 16));

  it("begin with a shift each, as many as asked for, and stop at the horizon", () => {
    expect(starts()).toEqual(["03-02T08:00", "03-04T08:00", "03-09T08:00"]);
    expect(starts({ count: 1 })).toEqual(["03-02T08:00"]);
    expect(starts({ horizonDays: 3 })).toEqual(["03-02T08:00", "03-04T08:00"]);
    expect(starts({ count: 40 })).toHaveLength(26);
  });

  it("fall on the grid, and on no day that is kept free", () => {
    const late = monday + 7 * MINUTE;
    expect(starts({ notBefore: late, count: 1 })).toEqual(["03-02T08:15"]);
    expect(starts({ notBefore: late, count: 1, gridMinutes: 10 })).toEqual(["03-02T08:10"]);
    expect(starts({ notOn: [1] })).toEqual(["03-04T08:00", "03-11T08:00", "03-18T08:00"]);
    expect(starts({ notOn: [] })[0]).toBe("03-02T08:00");
    expect(() => ask({ gridMinutes: 0 })).toThrow("grid is 0 minutes");
    expect(() => ask({ minutes: 0 })).toThrow("minutes of work is 0");
  });

  it("offer one for each person and start, the first bay that is free", () => {
    const bays = [
      { id: 10, name: "Bay 1" },
      { id: 11, name: "Bay 2" },
    ];
    const both = ask({ bays, people: [maja, { ...maja, id: 2, name: "Odd" }], count: 4 });
    expect(both.map((s) => [s.staffId, s.bayId])).toEqual([
      [1, 10],
      [2, 10],
      [1, 10],
      [2, 10],
    ]);
    const taken = { bayId: 10, staffId: 9, startsAt: monday, endsAt: monday + 60 * MINUTE };
    expect(ask({ bays, bookings: [taken] })[0]).toMatchObject({ bayId: 11, startsAt: monday });
  });

  it("say what they wait for only where it held them up, and nothing where they start at once", () => {
    const booked = (endsAt: number, bayId = 10, staffId = 9) => ({
      bayId,
      staffId,
      startsAt: monday,
      endsAt,
    });
    expect(ask({ bookings: [booked(monday + 30 * MINUTE)] })[0]?.waitsFor).toEqual([
      { kind: "bay", what: "Bay", until: monday + 30 * MINUTE },
    ]);
    const two = ask({ bookings: [booked(monday + 30 * MINUTE), booked(monday + 30 * MINUTE, 12, 1)] })[0];
    expect(two?.waitsFor.map((w) => w.kind)).toEqual(["bay", "person"]);
    const awaited = [
      { what: "Jets", at: monday + 60 * MINUTE },
      { what: "Gasket", at: monday - 60 * MINUTE },
    ];
    expect(ask({ awaited })[0]).toMatchObject({
      startsAt: monday + 60 * MINUTE,
      waitsFor: [{ kind: "awaited", what: "Jets", until: monday + 60 * MINUTE }],
    });
    // Asked on Sunday: the shift is what it waits for.
    expect(ask({ notBefore: at("2026-03-01T12:00Z") })[0]?.waitsFor).toEqual([
      { kind: "hours", what: "Maja", until: monday },
    ]);
    expect(ask({ notBefore: monday - 10 * MINUTE })[0]?.waitsFor).toEqual([]);
  });
});

describe("a visit in a customer's calendar", () => {
  const booking = {
    id: 7,
    version: 3,
    startsAt: new Date("2026-03-02T08:00Z"),
    endsAt: new Date("2026-03-02T12:00Z"),
    dropOffAt: null,
    pickUpAt: null,
  };
  const around = {
    slug: "saltpan",
    bike: "Kestrel Trail 400",
    job: { number: "12", title: "Rejet" },
    place: { name: "Saltpan", address: "1 Shed Road", phone: "555" },
    said: visitWords("en-AU"),
  };
  it("runs from bringing the bike to fetching it, with an id that stays (RFC 5545 UID and SEQUENCE)", () => {
    const visit = visitOf(booking, around);
    expect(visit).toEqual({
      uid: "visit-7@saltpan",
      sequence: 3,
      startsAt: booking.startsAt,
      endsAt: booking.endsAt,
      summary: "Kestrel Trail 400 at Saltpan",
      location: "1 Shed Road",
      description: "Job 12: Rejet\n555",
    });
    const dropOffAt = new Date("2026-03-01T16:00Z");
    const pickUpAt = new Date("2026-03-03T16:00Z");
    expect(visitOf({ ...booking, dropOffAt, pickUpAt }, around)).toMatchObject({
      startsAt: dropOffAt,
      endsAt: pickUpAt,
    });
    const silent = visitOf(booking, { ...around, place: { ...around.place, phone: "" } });
    expect(silent.description).toBe("Job 12: Rejet");
  });

  it("is kept as text in UTC", () => {
    const kept = printedVisit(visitOf(booking, around), true, new Date("2026-02-20T10:00Z"));
    expect(kept).toMatchObject({
      startsAt: "2026-03-02T08:00:00.000Z",
      endsAt: "2026-03-02T12:00:00.000Z",
      saidAt: "2026-02-20T10:00:00.000Z",
      cancelled: true,
      uid: "visit-7@saltpan",
    });
  });
});

describe("a reminder of a quote", () => {
  const facts: ReminderFacts = {
    today: "2026-11-30",
    sentOn: "2026-11-25",
    validUntil: "2026-12-09",
    afterDays: 5,
    beforeDays: 3,
    callOn: null,
    openQuestions: 0,
  };
  it("is due from the earlier of its two days on, and on the last", () => {
    const due = (today: string, more: Partial<ReminderFacts> = {}) =>
      isReminderDue({ ...facts, today, ...more });
    expect([due("2026-11-29"), due("2026-11-30"), due("2026-12-09"), due("2026-12-10")]).toEqual([
      false,
      true,
      true,
      false,
    ]);
    const late = { afterDays: null };
    expect([due("2026-12-05", late), due("2026-12-06", late)]).toEqual([false, true]);
    expect(due("2026-12-08", { afterDays: 0, beforeDays: 0 })).toBe(false);
    expect(due("2026-12-08", { afterDays: null, beforeDays: null })).toBe(false);
    expect(due("2026-11-25", { afterDays: 1, beforeDays: 20 })).toBe(false);
    expect(due("2026-11-26", { beforeDays: 20, afterDays: null })).toBe(true);
  });
});
