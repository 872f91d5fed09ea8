import { describe, expect, it } from "vitest";
import { book } from "@/lib/data/bookings/book";
import { firstTimes } from "@/lib/data/bookings/times";
import { closeOn } from "@/lib/data/shop/hours";
import { dayAfter, dayOf, instantOf } from "@/lib/domain/schedule/localTime";
import { holidayRegions, publicHolidays, regionOfZone } from "@/lib/outside/holidays";
import { oneJob } from "../support/oneJob";
import { twoShops } from "../support/shops";

/** Easter Sunday by the anonymous Gregorian computus (Meeus, Astronomical Algorithms, chapter 8). */
function easter(year: number): string {
  const a = year % 19;
  const b = Math.floor(year / 100);
  const c = year % 100;
  const d = Math.floor(b / 4);
  const e = b % 4;
  const g = Math.floor((8 * b + 13) / 25);
  const h = (19 * a + b - d - g + 15) % 30;
  const i = Math.floor(c / 4);
  const k = c % 4;
  const l = (32 + 2 * e + 2 * i - h - k) % 7;
  const m = Math.floor((a + 11 * h + 22 * l) / 451);
  const month = Math.floor((h + l - 7 * m + 114) / 31);
  const day = ((h + l - 7 * m + 114) % 31) + 1;
  return `${year}-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
}

const days = (found: readonly { day: string }[]) => found.map((h) => h.day);

describe("public holidays", () => {
  it("fall with Easter in Norway for twenty years (days of the holiday acts of 1947 and 1995, from memory)", () => {
    for (let year = 2020; year < 2040; year++) {
      const sunday = easter(year);
      const moving = [-3, -2, 0, 1, 39, 49, 50].map((n) => dayAfter(sunday, n));
      const fixed = ["01-01", "05-01", "05-17", "12-25", "12-26"].map((d) => `${year}-${d}`);
      expect(days(publicHolidays("NO", "", `${year}-01-01`, `${year}-12-31`))).toEqual(
        [...new Set([...moving, ...fixed])].sort(),
      );
    }
  });

  it("leave half days out, and cross the turn of the year", () => {
    const found = publicHolidays("AU", "SA", "2026-12-20", "2027-01-10");
    expect(days(found)).not.toContain("2026-12-24");
    expect(days(found)).toContain("2026-12-25");
    expect(days(found)).toContain("2027-01-01");
  });

  it("know the region by the shop's time zone, and that a country may have none", () => {
    expect(regionOfZone("AU", "Australia/Adelaide")).toBe("SA");
    expect(regionOfZone("NO", "Europe/Oslo")).toBe("");
    expect(holidayRegions("AU").map((r) => r.code)).toContain("SA");
  });

  it("close the shop once each, say what is booked there, and are left out of the first times that work", async () => {
    const zone = "Australia/Adelaide";
    const { a, b } = await twoShops(new Date("2026-12-22T00:30:00Z"));
    await a.write((tx) => tx.settings.update({ where: { id: 1 }, data: { zone } }));
    const job = await oneJob(a, { minutes: 60 });
    const bay = await a.read.bay.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } });
    const staff = await a.read.staff.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } });
    const startsAt = new Date(instantOf("2026-12-28", "08:00", zone));
    await book(a, { jobId: job.jobId, bayId: bay.id, staffId: staff.id, startsAt });
    const wanted = publicHolidays("AU", "SA", "2026-12-24", "2026-12-31");
    const first = await closeOn(a, wanted, zone);
    expect(first).toEqual({ closed: wanted.length, booked: 1 });
    expect(await closeOn(a, wanted, zone)).toEqual({ closed: 0, booked: 0 });
    const other = await oneJob(a, { minutes: 60 });
    const christmas = { ...a, now: new Date(instantOf("2026-12-25", "06:00", zone)) };
    const { times } = await firstTimes(christmas, other.jobId);
    expect(times.length).toBeGreaterThan(0);
    const closed = wanted.map((holiday) => holiday.day);
    for (const { startsAt: at } of times) expect(closed).not.toContain(dayOf(at, zone));
    expect(await b.read.closure.count()).toBe(0);
  });
});
