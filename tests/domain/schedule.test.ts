import { Temporal as Reference } from "@js-temporal/polyfill";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { type Booked, firstTimes } from "@/lib/domain/schedule/firstTimes";
import { lengthWithin, merged, overlaps } from "@/lib/domain/schedule/intervals";
import {
  dayAfter,
  dayOf,
  hoursInDay,
  instantOf,
  minuteOfDay,
  weekdayOf,
} from "@/lib/domain/schedule/localTime";
import { spanOf, type WeeklyHours, workingIntervals } from "@/lib/domain/schedule/working";

const at = (text: string) => Date.parse(text);
const iso = (ms: number) => new Date(ms).toISOString().slice(0, 16);
const DAY = 86_400_000;

describe("wall-clock times in a zone", () => {
  // IANA time zone database; temporal-polyfill and @js-temporal/polyfill agree on each.
  const vectors = [
    ["Australia/Sydney", "2026-10-04", "02:30", "2026-10-03T16:30Z"],
    ["Australia/Sydney", "2026-04-05", "02:30", "2026-04-04T15:30Z"],
    ["America/New_York", "2026-11-01", "01:30", "2026-11-01T05:30Z"],
    ["Europe/London", "2026-03-29", "01:30", "2026-03-29T01:30Z"],
    ["Australia/Brisbane", "2026-10-04", "02:30", "2026-10-03T16:30Z"],
  ] as const;
  for (const [zone, day, time, instant] of vectors)
    it(`${day} ${time} in ${zone} is ${instant}`, () => {
      expect(instantOf(day, time, zone)).toBe(at(instant));
      const reference = Reference.PlainDateTime.from(`${day}T${time}`).toZonedDateTime(zone, {
        disambiguation: "compatible",
      });
      expect(reference.epochMilliseconds).toBe(at(instant));
    });

  it("a Sydney spring day has 23 hours, an autumn day 25, a Brisbane day 24", () => {
    expect(hoursInDay("2026-10-04", "Australia/Sydney")).toBe(23);
    expect(hoursInDay("2026-04-05", "Australia/Sydney")).toBe(25);
    expect(hoursInDay("2026-10-04", "Australia/Brisbane")).toBe(24);
  });

  it("agree with @js-temporal/polyfill for any day, time and zone tried", () => {
    const zones = [
      "Australia/Sydney",
      "America/New_York",
      "Europe/London",
      "Asia/Kathmandu",
      "Australia/Lord_Howe",
      "America/St_Johns",
    ];
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 3650 }),
        fc.nat(23),
        fc.nat(59),
        (zone, days, hour, minute) => {
          const time = `${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`;
          const day = dayAfter("2024-01-01", days);
          const reference = Reference.PlainDateTime.from(`${day}T${time}`).toZonedDateTime(zone);
          expect(instantOf(day, time, zone)).toBe(reference.epochMilliseconds);
          expect(dayOf(reference.epochMilliseconds, zone)).toBe(reference.toPlainDate().toString());
          expect(weekdayOf(day)).toBe(reference.toPlainDate().dayOfWeek);
        },
      ),
      { numRuns: 200 },
    );
  });

  it("refuse days, times and zones that do not exist", () => {
    expect(() => instantOf("2026-02-30", "08:00", "Europe/Oslo")).toThrow(Refusal);
    expect(() => instantOf("2026-02-03", "8:00", "Europe/Oslo")).toThrow(Refusal);
    expect(() => instantOf("2026-02-03", "25:00", "Europe/Oslo")).toThrow(Refusal);
    expect(() => instantOf("2026-02-03", "08:00", "Saltpan/Shed")).toThrow(/time zone/);
    expect(instantOf("2026-02-03", "24:00", "Europe/Oslo")).toBe(at("2026-02-03T23:00Z"));
  });
});

const weekdays: WeeklyHours = Object.fromEntries(
  [1, 2, 3, 4, 5].map((d) => [
    d,
    [
      { from: "08:00", to: "12:00" },
      { from: "13:00", to: "17:00" },
    ],
  ]),
);
const working = (more = {}) => ({
  hours: weekdays,
  closures: [],
  absences: [],
  zone: "Australia/Sydney",
  ...more,
});

describe("working time", () => {
  it("follows the week, less closures and absences, cut to what was asked", () => {
    // Monday 2026-03-02 to Wednesday in Oslo (UTC+1); Tuesday closed.
    const found = workingIntervals(
      at("2026-03-02T09:00Z"),
      at("2026-03-04T10:00Z"),
      weekdays,
      [{ fromDay: "2026-03-03", toDay: "2026-03-03" }],
      [],
      "Europe/Oslo",
    );
    expect(found.map((i) => [iso(i.startsAt), iso(i.endsAt)])).toEqual([
      ["2026-03-02T09:00", "2026-03-02T11:00"],
      ["2026-03-02T12:00", "2026-03-02T16:00"],
      ["2026-03-04T07:00", "2026-03-04T10:00"],
    ]);
    expect(
      workingIntervals(
        at("2026-03-02T00:00Z"),
        at("2026-03-09T00:00Z"),
        weekdays,
        [],
        [{ fromDay: "2026-03-01", toDay: "2026-03-08" }],
        "Europe/Oslo",
      ),
    ).toEqual([]);
    expect(() => workingIntervals(0, DAY, { 4: [{ from: "12:00", to: "08:00" }] }, [], [], "UTC")).toThrow(
      Refusal,
    );
  });

  it("has the length it really has when the clocks change: a Sunday night shift in Sydney loses an hour", () => {
    const sunday: WeeklyHours = { 7: [{ from: "00:00", to: "08:00" }] };
    const [shift] = workingIntervals(
      at("2026-10-03T12:00Z"),
      at("2026-10-04T12:00Z"),
      sunday,
      [],
      [],
      "Australia/Sydney",
    );
    expect(((shift?.endsAt ?? 0) - (shift?.startsAt ?? 0)) / 3_600_000).toBe(7);
  });

  it("spans nights, weekends and a change of the clocks", () => {
    // Friday 2026-10-02 16:00 Sydney (+10): one hour then, one on Monday 08:00 to 09:00 (+11).
    expect(iso(spanOf(at("2026-10-02T06:00Z"), 120, working()))).toBe("2026-10-04T22:00");
    expect(iso(spanOf(at("2026-10-02T06:00Z"), 60, working()))).toBe("2026-10-02T07:00");
    // Started on Saturday it begins on Monday.
    expect(iso(spanOf(at("2026-10-03T00:00Z"), 30, working()))).toBe("2026-10-04T21:30");
    expect(() => spanOf(0, 60, working({ hours: {} }))).toThrow(/do not fit/);
    expect(() => spanOf(0, 0, working())).toThrow(Refusal);
  });

  it("between a start and its end holds exactly the minutes of work", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 300 }),
        fc.integer({ min: 1, max: 3000 }),
        fc.nat(1439),
        (day, minutes, minute) => {
          const startsAt = at("2026-01-01T00:00Z") + day * DAY + minute * 60_000;
          const endsAt = spanOf(startsAt, minutes, working());
          const shifts = workingIntervals(startsAt, endsAt + DAY, weekdays, [], [], "Australia/Sydney");
          expect(lengthWithin(shifts, { startsAt, endsAt }) / 60_000).toBe(minutes);
        },
      ),
      { numRuns: 60 },
    );
  });
});

const interval = fc.tuple(fc.nat(100), fc.nat(20)).map(([s, l]) => ({ startsAt: s, endsAt: s + l }));

describe("stretches of time", () => {
  it("overlap when they share time, not when they touch", () => {
    expect(overlaps({ startsAt: 0, endsAt: 5 }, { startsAt: 5, endsAt: 9 })).toBe(false);
    expect(overlaps({ startsAt: 0, endsAt: 6 }, { startsAt: 5, endsAt: 9 })).toBe(true);
  });

  it("merged cover the same time and no longer touch", () => {
    fc.assert(
      fc.property(fc.array(interval, { maxLength: 12 }), (list) => {
        const found = merged(list);
        for (let t = 0; t < 121; t++) {
          const covers = (i: { startsAt: number; endsAt: number }) => i.startsAt <= t && t < i.endsAt;
          expect(found.some(covers)).toBe(list.some(covers));
        }
        for (const [i, one] of found.entries())
          expect(one.startsAt).toBeGreaterThan(found[i - 1]?.endsAt ?? -1);
      }),
    );
  });
});

describe("first times that work", () => {
  const zone = "Europe/Oslo";
  const maja = { id: 1, name: "Maja", hours: weekdays, absences: [] };
  const odd = {
    id: 2,
    name: "Odd",
    hours: { 2: [{ from: "08:00", to: "16:00" }] } as WeeklyHours,
    absences: [],
  };
  const bay = { id: 10, name: "Bay 1" };
  // Monday 2026-03-02 08:00 in Oslo.
  const monday = at("2026-03-02T07:00Z");
  const ask = (more = {}) =>
    firstTimes({
      minutes: 120,
      bays: [bay],
      people: [maja],
      bookings: [],
      closures: [],
      notBefore: monday,
      zone,
      count: 3,
      ...more,
    });

  it("start at once when nothing is in the way", () => {
    expect(ask()[0]).toEqual({
      bayId: 10,
      staffId: 1,
      startsAt: monday,
      endsAt: at("2026-03-02T09:00Z"),
      waitsFor: [],
    });
  });

  it("say that they wait for the bay, the person, the parts or the hours", () => {
    const booked: Booked = { bayId: 10, staffId: 2, startsAt: monday, endsAt: at("2026-03-02T10:00Z") };
    expect(ask({ bookings: [booked] })[0]).toMatchObject({
      startsAt: at("2026-03-02T10:00Z"),
      waitsFor: [{ kind: "bay", what: "Bay 1" }],
    });
    const elsewhere = { ...booked, bayId: 11, staffId: 1 };
    expect(ask({ bookings: [elsewhere] })[0]).toMatchObject({
      startsAt: at("2026-03-02T10:00Z"),
      waitsFor: [{ kind: "person", what: "Maja" }],
    });
    // Parts come on Monday evening: the work starts on Tuesday morning, and still waits for them.
    const awaited = [{ what: "Main jets", at: at("2026-03-02T18:00Z") }];
    expect(ask({ awaited })[0]).toMatchObject({
      startsAt: at("2026-03-03T07:00Z"),
      waitsFor: [{ kind: "awaited", what: "Main jets" }],
    });
    expect(ask({ people: [odd] })[0]).toMatchObject({
      startsAt: at("2026-03-03T07:00Z"),
      waitsFor: [{ kind: "hours", what: "Odd" }],
    });
  });

  it("work over the night when a day is too short", () => {
    expect(ask({ minutes: 600 })[0]).toMatchObject({ startsAt: monday, endsAt: at("2026-03-03T09:00Z") });
  });

  it("are the earliest: no free stretch on the grid starts sooner, and none offered is taken", () => {
    const booking = fc
      .record({
        bayId: fc.constantFrom(10, 11),
        staffId: fc.constantFrom(1, 2),
        start: fc.nat(200),
        length: fc.integer({ min: 1, max: 20 }),
      })
      .map(({ bayId, staffId, start, length }) => ({
        bayId,
        staffId,
        startsAt: monday + start * 900_000,
        endsAt: monday + (start + length) * 900_000,
      }));
    fc.assert(
      fc.property(
        fc.array(booking, { maxLength: 10 }),
        fc.integer({ min: 1, max: 40 }),
        (bookings, quarters) => {
          const people = [maja, odd];
          const bays = [bay, { id: 11, name: "Bay 2" }];
          const minutes = quarters * 15;
          const slots = firstTimes({
            minutes,
            bays,
            people,
            bookings,
            closures: [],
            notBefore: monday,
            zone,
            count: 5,
          });
          const free = (bayId: number, staffId: number, startsAt: number, endsAt: number) =>
            !bookings.some(
              (b) => (b.bayId === bayId || b.staffId === staffId) && overlaps(b, { startsAt, endsAt }),
            );
          for (const slot of slots) {
            expect(free(slot.bayId, slot.staffId, slot.startsAt, slot.endsAt)).toBe(true);
            const person = people.find((p) => p.id === slot.staffId) ?? maja;
            expect(
              spanOf(slot.startsAt, minutes, { hours: person.hours, closures: [], absences: [], zone }),
            ).toBe(slot.endsAt);
          }
          // Each wait that is named ended at or before the start, and without it the work could have begun in time that is lost.
          for (const slot of slots) {
            const person = people.find((p) => p.id === slot.staffId) ?? maja;
            const working = { hours: person.hours, closures: [], absences: [], zone };
            for (const wait of slot.waitsFor.filter(({ kind }) => kind === "bay" || kind === "person")) {
              const by = wait.kind === "bay" ? "bayId" : "staffId";
              const ended = bookings.filter((b) => b[by] === slot[by] && b.endsAt === wait.until);
              expect(ended.length).toBeGreaterThan(0);
              expect(workingIntervals(wait.until, slot.startsAt, working.hours, [], [], zone)).toEqual([]);
            }
            // Both the bay and the person are named where both became free only then.
            for (const by of ["bayId", "staffId"] as const)
              if (bookings.some((b) => b[by] === slot[by] && b.endsAt === slot.startsAt))
                expect(slot.waitsFor.map(({ kind }) => kind)).toContain(by === "bayId" ? "bay" : "person");
          }
          const first = slots[0]?.startsAt ?? 0;
          expect(slots).toHaveLength(5);
          for (const person of people) {
            const shifts = workingIntervals(monday, first, person.hours, [], [], zone);
            for (let t = monday; t < first; t += 900_000) {
              if (!shifts.some((s) => s.startsAt <= t && t < s.endsAt)) continue;
              const endsAt = spanOf(t, minutes, { hours: person.hours, closures: [], absences: [], zone });
              for (const b of bays) expect(free(b.id, person.id, t, endsAt)).toBe(false);
            }
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe("the minute of a day", () => {
  // The instants are the IANA vectors of this file read back: wall clock after and before the change in Sydney.
  it("is read off the shop's clock, on either side of a change of the clocks", () => {
    expect(minuteOfDay(Date.parse("2026-10-03T16:30:00Z"), "Australia/Sydney")).toBe(3 * 60 + 30);
    expect(minuteOfDay(Date.parse("2026-04-04T15:30:00Z"), "Australia/Sydney")).toBe(2 * 60 + 30);
    expect(minuteOfDay(Date.parse("2026-10-03T16:30:00Z"), "Australia/Brisbane")).toBe(2 * 60 + 30);
  });
});
