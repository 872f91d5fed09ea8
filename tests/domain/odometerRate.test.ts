import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { kmPerDay, type OdometerRate, odometerAt, reachedAt } from "@/lib/domain/sheets/odometerRate";

const DAY = 86_400_000;
const read = (day: number, km: number) => ({ at: day * DAY, km });
const rateOf = (readings: Parameters<typeof kmPerDay>[0]): OdometerRate => {
  const found = kmPerDay(readings);
  if (!found.known) throw new Error(found.why);
  return found;
};

describe("how far a bike is ridden in a day", () => {
  it("is refused for fewer than two readings a week apart, and for a span under two months", () => {
    expect(kmPerDay([])).toMatchObject({ known: false, why: /not read twice/ });
    expect(kmPerDay([read(0, 20_000)]).known).toBe(false);
    expect(kmPerDay([read(0, 20_000), read(3, 20_100)]).known).toBe(false);
    expect(kmPerDay([read(0, 20_000), read(40, 21_000)])).toEqual({
      known: false,
      why: "The odometer was read over 40 days only: two months are needed.",
    });
  });

  it("of two readings is their slope, within half of it either way (worked by hand)", () => {
    const rate = rateOf([read(0, 20_000), read(100, 22_000)]);
    expect(rate).toMatchObject({
      kmPerDay: 20,
      low: 10,
      high: 30,
      readings: 2,
      days: 100,
      last: read(100, 22_000),
    });
    expect(odometerAt(rate, 150 * DAY)).toEqual({ km: 23_000, low: 22_500, high: 23_500 });
    const reached = reachedAt(rate, 24_000);
    expect(reached).toMatchObject({ at: 200 * DAY, late: 300 * DAY });
    expect((reached.early ?? 0) / DAY).toBeCloseTo(100 + 2000 / 30, 6);
    expect(reachedAt(rate, 21_000)).toEqual({ at: 100 * DAY, early: 100 * DAY, late: 100 * DAY });
    expect(odometerAt(rate, 0)).toEqual({ km: 22_000, low: 22_000, high: 22_000 });
  });

  it("is not led astray by one reading that was mistyped: the median of the slopes (Sen, 1968)", () => {
    const rate = rateOf([
      read(0, 20_000),
      read(100, 22_000),
      read(200, 24_000),
      read(300, 35_000),
      read(400, 28_000),
    ]);
    expect(rate.kmPerDay).toBeCloseTo(20, 9);
    expect(rate.last.km).toBe(28_000);
  });

  it("goes on over an exchanged counter, from where the new one stands", () => {
    const rate = rateOf([read(0, 60_000), read(100, 61_000), read(110, 12), read(210, 1012)]);
    expect(rate).toMatchObject({ kmPerDay: 10, days: 200, last: read(210, 1012) });
    expect(odometerAt(rate, 220 * DAY).km).toBe(1112);
  });

  it("of a bike that stands still reaches no distance", () => {
    const rate = rateOf([read(0, 9000), read(100, 9000)]);
    expect(rate).toMatchObject({ kmPerDay: 0, low: 0, high: 0 });
    expect(reachedAt(rate, 9500)).toEqual({ at: null, early: null, late: null });
  });

  it("has the rate in its band, whatever was read, and grows no narrower with the days", () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ at: fc.integer({ min: 0, max: 2000 }), km: fc.nat(90_000) }), { maxLength: 12 }),
        fc.nat(1000),
        (readings, days) => {
          const rate = kmPerDay(readings.map(({ at, km }) => read(at, km)));
          if (!rate.known) return;
          expect(rate.low).toBeLessThanOrEqual(rate.kmPerDay);
          expect(rate.high).toBeGreaterThanOrEqual(rate.kmPerDay);
          expect(rate.low).toBeGreaterThanOrEqual(0);
          const [soon, later] = [0, days].map((more) => odometerAt(rate, rate.last.at + (10 + more) * DAY));
          expect((later?.high ?? 0) - (later?.low ?? 0)).toBeGreaterThanOrEqual(
            (soon?.high ?? 0) - (soon?.low ?? 0),
          );
        },
      ),
    );
  });
});
