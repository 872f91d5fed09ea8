import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hoursCsvParts } from "@/lib/documents/csv";
import { mondayOf, type Stretch, weekHours } from "@/lib/domain/labour/hours";
import { dayAfter, hoursInDay, instantOf } from "@/lib/domain/schedule/localTime";

const stretch = (staffId: number, from: string, to: string | null, zone: string): Stretch => {
  const at = (text: string) => instantOf(text.slice(0, 10), text.slice(11), zone);
  return { staffId, startedAt: at(from), endedAt: to === null ? null : at(to) };
};

describe("the hours of a week", () => {
  it("begin on Monday (ISO 8601)", () => {
    expect(mondayOf("2026-11-29")).toBe("2026-11-23");
    expect(mondayOf("2026-11-23")).toBe("2026-11-23");
  });

  it("have what was worked in the night of 23 hours, and in that of 25 (IANA: Sydney, 4 October and 5 April 2026)", () => {
    const zone = "Australia/Sydney";
    const night = (day: string) => [stretch(1, `${dayAfter(day, -1)}T22:00`, `${day}T06:00`, zone)];
    // 22:00 to midnight is 120 min; midnight to 06:00 is five hours in spring and seven in autumn.
    const spring = weekHours("2026-09-28", zone, night("2026-10-04"), [], 0);
    expect(spring[0]?.days).toEqual([0, 0, 0, 0, 0, 120, 300]);
    const autumn = weekHours("2026-03-30", zone, night("2026-04-05"), [], 0);
    expect(autumn[0]?.days).toEqual([0, 0, 0, 0, 0, 120, 420]);
    expect([hoursInDay("2026-10-04", zone), hoursInDay("2026-04-05", zone)]).toEqual([23, 25]);
  });

  it("cut a stretch at the week's ends, count what runs until now, and take no break that went home", () => {
    const zone = "Europe/Oslo";
    const entries = [
      stretch(1, "2026-11-22T23:00", "2026-11-23T01:00", zone),
      stretch(1, "2026-11-25T08:00", null, zone),
      stretch(2, "2026-11-30T08:00", "2026-11-30T09:00", zone),
    ];
    const breaks = [
      stretch(1, "2026-11-24T12:00", "2026-11-24T12:30", zone),
      stretch(1, "2026-11-24T16:00", "2026-11-25T08:00", zone),
      stretch(1, "2026-11-25T12:00", null, zone),
    ];
    const now = instantOf("2026-11-25", "10:15", zone);
    expect(weekHours("2026-11-23", zone, entries, breaks, now)).toEqual([
      { staffId: 1, days: [60, 0, 135, 0, 0, 0, 0], minutes: 195, breakMinutes: 30, running: true },
    ]);
  });

  it("of all weeks together are all that was worked, to the rounding of each day, in any zone", () => {
    const start = Date.UTC(2026, 2, 20);
    fc.assert(
      fc.property(
        fc.constantFrom("Europe/Oslo", "Australia/Adelaide", "America/New_York", "UTC"),
        fc.array(
          fc.record({ from: fc.nat(20 * 86_400_000), length: fc.integer({ min: 1, max: 30 * 3_600_000 }) }),
          {
            maxLength: 8,
          },
        ),
        (zone, stretches) => {
          const entries = stretches.map(({ from, length }) => ({
            staffId: 1,
            startedAt: start + from,
            endedAt: start + from + length,
          }));
          const weeks = Array.from({ length: 6 }, (_, at) => dayAfter("2026-03-09", at * 7));
          const minutes = weeks
            .flatMap((monday) => weekHours(monday, zone, entries, [], 0))
            .map((week) => week.minutes);
          const all = minutes.reduce((sum, one) => sum + one, 0);
          const exact = stretches.reduce((sum, { length }) => sum + length / 60_000, 0);
          expect(Math.abs(all - exact)).toBeLessThanOrEqual(42 / 2);
        },
      ),
    );
  });

  it("go to wages as a row for each person and week, with names that a spreadsheet cannot run", async () => {
    const week = { name: "=Lio", from: "2026-11-23", to: "2026-11-29", days: [60, 0, 135, 0, 0, 0, 0] };
    const parts: string[] = [];
    for await (const part of hoursCsvParts(
      (async function* () {
        yield { ...week, minutes: 195, breakMinutes: 30, running: true };
      })(),
    ))
      parts.push(part);
    const [head = "", row] = parts.join("").split("\r\n");
    expect(head).toContain('person,week from,week to,"Monday, minutes"');
    expect(row).toBe('"\'=Lio",2026-11-23,2026-11-29,60,0,135,0,0,0,0,195,3.25,30,yes');
  });
});
