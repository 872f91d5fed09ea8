import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type CheckedAt, nextCheck } from "@/lib/domain/tuning/nextCheck";
import { intervalFor, severityWords } from "@/lib/domain/tuning/severity";
import { dueAgain } from "@/lib/domain/tuning/wear";

const DUST = { name: "Dust", factor: 2.5 };
const said = (because: readonly { fact: string }[]) => because.map(({ fact }) => fact).join("; ");

describe("an interval by distance", () => {
  // By hand: 6000 / 2.5 = 2400; 1000 / 3 = 333.3. The factors are common practice, no source.
  it("comes sooner by the factor of the use, in whole kilometres, and says why", () => {
    expect(intervalFor(6000, DUST).km).toBe(2400);
    expect(intervalFor(1000, { name: "Sand", factor: 3 }).km).toBe(333);
    expect(said(intervalFor(6000, DUST).because)).toBe("“Dust”, which divides intervals by 2.5");
    expect(severityWords(DUST)).toBe("sooner for “Dust”, ÷ 2.5");
  });

  it("is the road's own on the dry road, with nothing to say", () => {
    for (const road of [null, { name: "Road", factor: 1 }]) {
      expect(intervalFor(6000, road)).toEqual({ km: 6000, because: [] });
      expect(severityWords(road)).toBe("");
    }
    expect(intervalFor(1, { name: "Mud", factor: 10 }).km).toBe(1);
  });

  it("takes factors from 1 to 10 and distances above nothing", () => {
    expect(() => intervalFor(6000, { name: "Softer", factor: 0.9 })).toThrow("factor of the use");
    expect(() => intervalFor(6000, { name: "Harder", factor: 10.1 })).toThrow();
    expect(() => intervalFor(0, null)).toThrow("interval on the dry road");
  });
});

describe("what is due again by distance", () => {
  const guides = {
    what: "Slide guides",
    roadKm: 20_000,
    severity: DUST,
    odometerKm: 30_000,
    doneAtKm: 23_000,
  };
  it("counts from where it was last done, against the shortened interval", () => {
    const within = dueAgain(guides);
    expect(within).toMatchObject({ limit: 8000, measured: 7000, state: "within", next: { atKm: 31_000 } });
    expect(said(within.because ?? [])).toBe(
      "every 20000 km on the dry road; “Dust”, which divides intervals by 2.5",
    );
    expect(dueAgain({ ...guides, odometerKm: 31_000 })).toMatchObject({ measured: 8000, state: "worn" });
    expect(dueAgain({ ...guides, odometerKm: 31_000 }).next).toBeUndefined();
  });

  it("counts from new where nothing is kept, and is unknown without an odometer", () => {
    expect(dueAgain({ ...guides, doneAtKm: null })).toMatchObject({ measured: 30_000, state: "worn" });
    expect(dueAgain({ ...guides, odometerKm: null })).toMatchObject({ measured: null, state: "unknown" });
    const road = dueAgain({ ...guides, severity: null });
    expect(road.because).toBeUndefined();
    expect(said(road.next?.because ?? [])).toBe("every 20000 km on the dry road");
  });
});

describe("the next check of something that wears", () => {
  const at = (odometerKm: number, value: number): CheckedAt => ({ odometerKm, value });
  const limit = { high: 2.7, from: "model card" };
  const asked = (readings: readonly CheckedAt[], more = {}) =>
    nextCheck({ readings, limit, everyKm: 6000, severity: DUST, ...more });

  // By hand: from 2.60 to 2.62 in 4000 km; 0.08 left is 16,000 km, half of it 8000: the service at 2400 comes first.
  // From 2.60 to 2.68: 0.02 left is 1000 km, half of it 500.
  it("is at the service as its use shortens it, or half-way to the limit as its readings go, whichever comes first", () => {
    const mild = asked([at(10_000, 2.6), at(14_000, 2.62)]);
    expect(mild?.atKm).toBe(16_400);
    expect(said(mild?.because ?? [])).toContain("6000 km on the dry road; “Dust”");
    const fast = asked([at(10_000, 2.6), at(14_000, 2.68)]);
    expect(fast?.atKm).toBe(14_500);
    expect(said(fast?.because ?? [])).toBe("half-way to its limit, as its last two readings go");
    // The readings hold the use already.
    expect(asked([at(10_000, 2.6), at(14_000, 2.68)], { severity: null })?.atKm).toBe(14_500);
  });

  it("goes by the last reading alone where the part before was another one, or there is one reading", () => {
    expect(asked([at(10_000, 2.69), at(14_000, 2.6)])?.atKm).toBe(16_400);
    expect(asked([at(14_000, 2.6)])?.atKm).toBe(16_400);
    expect(asked([at(14_000, 2.6)], { everyKm: null })).toBeNull();
    expect(asked([at(14_000, 2.6), at(14_000, 2.62)], { everyKm: null })).toBeNull();
  });

  it("is nothing where nothing was read, and where the limit is reached", () => {
    expect(asked([])).toBeNull();
    expect(asked([at(14_000, 2.7)])).toBeNull();
    expect(
      nextCheck({ readings: [at(9000, 90)], limit: { low: 90, from: "" }, everyKm: 1, severity: null }),
    ).toBeNull();
  });

  it("never lies behind the last reading, nor past where a straight line through two readings meets the limit", () => {
    const shrinking = fc.tuple(
      fc.integer({ min: 0, max: 100_000 }),
      fc.integer({ min: 100, max: 50_000 }),
      fc.integer({ min: 1, max: 400 }),
      fc.integer({ min: 1, max: 400 }),
    );
    fc.assert(
      fc.property(shrinking, ([fromKm, ridden, worn, left]) => {
        const readings = [at(fromKm, 100 + worn + left), at(fromKm + ridden, 100 + left)];
        const next = nextCheck({ readings, limit: { low: 100, from: "" }, everyKm: null, severity: null });
        const meets = fromKm + ridden + (left * ridden) / worn;
        expect(next?.atKm).toBeGreaterThanOrEqual(fromKm + ridden);
        expect(next?.atKm).toBeLessThanOrEqual(Math.max(fromKm + ridden + 1, meets));
      }),
    );
  });
});
