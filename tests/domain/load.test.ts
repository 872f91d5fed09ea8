import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type LoadedBooking, loadOf } from "@/lib/domain/schedule/load";
import { instantOf } from "@/lib/domain/schedule/localTime";

const ADELAIDE = "Australia/Adelaide";
const OSLO = "Europe/Oslo";
const EVERY = Object.fromEntries([1, 2, 3, 4, 5, 6, 7].map((day) => [day, [{ from: "08:00", to: "16:00" }]]));
const person = (id: number, hours = EVERY, absences: { fromDay: string; toDay: string }[] = []) => ({
  id,
  name: `P${id}`,
  hours,
  absences,
});
const booked = (day: string, from: string, to: string, sold: boolean, zone: string, staffId = 1) => ({
  startsAt: instantOf(day, from, zone),
  endsAt: instantOf(day, to, zone),
  staffId,
  sold,
});

describe("The load of a day", () => {
  it("is what is agreed, held and left of the hours that people are there", () => {
    const day = "2026-11-30";
    const bookings = [booked(day, "08:00", "11:00", true, OSLO), booked(day, "13:00", "14:30", false, OSLO)];
    expect(loadOf(day, 1, [person(1)], [], bookings, OSLO)).toEqual({
      capacity: 480,
      sold: 180,
      held: 90,
      free: 210,
      over: 0,
    });
  });

  it("is of no more people at once than there are bays, and of nobody on a closed day", () => {
    const late = { 1: [{ from: "12:00", to: "20:00" }] };
    const people = [person(1), person(2, late)];
    // One bay from 8 to 20; two bays: 8 + 8 hours.
    expect(loadOf("2026-11-30", 1, people, [], [], OSLO).capacity).toBe(720);
    expect(loadOf("2026-11-30", 2, people, [], [], OSLO).capacity).toBe(960);
    const closed = [{ fromDay: "2026-11-30", toDay: "2026-11-30" }];
    expect(loadOf("2026-11-30", 2, people, closed, [], OSLO).capacity).toBe(0);
    expect(loadOf("2026-11-30", 2, [person(1, EVERY, closed)], [], [], OSLO).capacity).toBe(0);
  });

  it("counts a night's work by the working time of each day, and says what is too much", () => {
    const [monday, tuesday] = ["2026-11-30", "2026-12-01"];
    const over = {
      startsAt: instantOf(monday, "14:00", OSLO),
      endsAt: instantOf(tuesday, "10:00", OSLO),
      staffId: 1,
      sold: true,
    };
    expect(loadOf(monday, 1, [person(1)], [], [over], OSLO).sold).toBe(120);
    expect(loadOf(tuesday, 1, [person(1)], [], [over], OSLO).sold).toBe(120);
    const twice = [
      booked(monday, "08:00", "16:00", true, OSLO),
      booked(monday, "08:00", "12:00", false, OSLO),
    ];
    expect(loadOf(monday, 1, [person(1)], [], twice, OSLO)).toMatchObject({ free: 0, over: 240 });
  });

  // IANA: clocks go forward in Oslo on 2026-03-29 at 02:00, in Adelaide on 2026-10-04, and back on 2026-10-25 and 2026-04-05.
  it("has the hours that a shift over a change of the clocks really has", () => {
    const night = Object.fromEntries(
      [1, 2, 3, 4, 5, 6, 7].map((day) => [day, [{ from: "00:00", to: "08:00" }]]),
    );
    const on = (day: string, zone: string) => loadOf(day, 1, [person(1, night)], [], [], zone).capacity;
    expect([on("2026-03-29", OSLO), on("2026-10-25", OSLO)]).toEqual([420, 540]);
    expect([on("2026-10-04", ADELAIDE), on("2026-04-05", ADELAIDE)]).toEqual([420, 540]);
  });

  it("always adds up", () => {
    const day = "2026-10-04";
    const hour = fc.integer({ min: 0, max: 23 });
    const one = fc.record({
      from: hour,
      hours: fc.integer({ min: 1, max: 9 }),
      sold: fc.boolean(),
      staffId: fc.constantFrom(1, 2, 9),
    });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 8 }), fc.integer({ min: 0, max: 3 }), (made, bays) => {
        const bookings: LoadedBooking[] = made.map(({ from, hours, ...rest }) => {
          const startsAt = instantOf(day, `${String(from).padStart(2, "0")}:00`, ADELAIDE);
          return { ...rest, startsAt, endsAt: startsAt + hours * 3_600_000 };
        });
        const { capacity, sold, held, free, over } = loadOf(
          day,
          bays,
          [person(1), person(2)],
          [],
          bookings,
          ADELAIDE,
        );
        expect(sold + held + free - over).toBe(capacity);
        expect(free === 0 || over === 0).toBe(true);
        expect(capacity).toBe(Math.min(bays, 2) * 480);
      }),
    );
  });
});
