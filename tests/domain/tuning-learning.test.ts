import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { openingFor } from "@/lib/domain/tuning/expectedLog";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { readLambdaLog } from "@/lib/domain/tuning/lambdaLog";
import { meanSigma, narrowings } from "@/lib/domain/tuning/narrowing";
import { REGIONS, targetLambda } from "@/lib/domain/tuning/regions";
import {
  ACCEPTED_AT,
  type AskingBike,
  calibrateFromRides,
  heldAt,
  keptAir,
  type RiddenOpening,
  type TaughtRide,
} from "@/lib/domain/tuning/ridden";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { Region, RegionCorrection } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, OPENED } from "./tuning-demo";

const here = placeAir({ altitudeM: 410, temperatureC: 20, humidity: null });
const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]));
const bike: AskingBike = { id: 7, card: DROVER, carburettors: 1, reference: { settings, air: here } };
const state = { ...bike, settings: { ...settings, airboxOpeningMm: 51 } };
const ride = (at: readonly RiddenOpening[], change: Partial<TaughtRide> = {}): TaughtRide => ({
  kind: "wideband",
  settings,
  air: keptAir(here),
  at,
  bikeId: 7,
  current: true,
  ...change,
});
const held = (throttle: number, factor = 1): RiddenOpening => ({
  throttle,
  lambda: targetLambda(throttle) * factor,
  sigma: 0.015,
});
const accepted = (bikeId: number, change: Partial<TaughtRide> = {}) =>
  ride(ACCEPTED_AT, { kind: "accepted", bikeId, ...change });
const region = (of: readonly RegionCorrection[], name: Region) => {
  const found = of.find((c) => c.region === name);
  if (!found) throw new Error(`no ${name}`);
  return found;
};
const value = (of: readonly RegionCorrection[], name: Region) => region(of, name).value;

const anyRide = fc
  .record({
    kind: fc.constantFrom("wideband" as const, "accepted" as const, "felt" as const),
    bikeId: fc.integer({ min: 7, max: 9 }),
    throttles: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 5 }),
    factor: fc.double({ min: 0.95, max: 1.05, noNaN: true }),
    opened: fc.boolean(),
  })
  .map(({ kind, bikeId, throttles, factor, opened }) =>
    ride(
      throttles.map((t) =>
        kind === "wideband"
          ? held(t, factor)
          : kind === "felt"
            ? { throttle: t, sign: "lean" as const }
            : { throttle: t },
      ),
      { kind, bikeId, settings: opened ? { ...settings, airboxOpeningMm: 51 } : settings },
    ),
  );

describe("the band shown", () => {
  it("is widened by no further ride, agreeing or not, in any region or at any opening", () => {
    const band = (rides: readonly TaughtRide[]) => {
      const calibration = calibrateFromRides(bike, rides);
      const curve = fuelCurve({ ...state, calibration }, here, 12).points;
      return [...calibration.map((c) => c.sigma), ...curve.map((p) => Math.log(p.high / p.low))];
    };
    fc.assert(
      fc.property(fc.array(anyRide, { maxLength: 4 }), anyRide, (rides, more) => {
        const before = band(rides);
        band([...rides, more]).forEach((width, i) => {
          expect(width).toBeLessThanOrEqual((before[i] ?? 0) + 1e-9);
        });
      }),
      { numRuns: 60 },
    );
  });
  it("keeps the accepted setting as evidence where a log sampled nothing", () => {
    const nothing = calibrateFromRides(bike, []);
    const logged = calibrateFromRides(bike, [ride([held(1)])]);
    for (const name of REGIONS)
      expect(region(logged, name).sigma).toBeLessThanOrEqual(region(nothing, name).sigma + 1e-12);
    expect(meanSigma({ ...state, calibration: logged }, here)).toBeLessThan(meanSigma(state, here));
  });
});

describe("the promise of what to measure first", () => {
  it("is what happens when such a log is ridden, read and kept, whatever was kept before", () => {
    for (const before of [
      [],
      [ride([held(0.5, 1.03)], { bikeId: 8 })],
      [accepted(7), ride([held(1, 0.98)])],
    ]) {
      const promised = narrowings(state, here, { id: 7, rides: before }).filter((n) => "region" in n.what);
      expect(promised.length).toBeGreaterThan(0);
      for (const n of promised) {
        const opening = openingFor(bike, "region" in n.what ? n.what.region : "main") ?? 1;
        const rows = Array.from({ length: 40 }, (_, i) => i);
        const { bins } = readLambdaLog({
          timeS: rows.map((i) => i / 10),
          throttle: rows.map(() => opening),
          lambda: rows.map((i) => targetLambda(opening) * (1 + (i % 2 ? 0.01 : -0.01))),
        });
        const kept = calibrateFromRides(bike, [...before, ride(bins.map(heldAt))]);
        expect(meanSigma({ ...state, calibration: kept }, here)).toBeCloseTo(n.then, 9);
        const now = calibrateFromRides(bike, before);
        expect(meanSigma({ ...state, calibration: now }, here)).toBeCloseTo(n.now, 9);
      }
    }
  });
});

describe("rides without an instrument", () => {
  it("never add up to the certainty of one instrument: 200 good rides tell less than one log", () => {
    const rides = calibrateFromRides(
      bike,
      Array.from({ length: 200 }, () => accepted(7)),
    );
    const log = calibrateFromRides(bike, [ride([0.02, 0.15, 0.3, 0.5, 0.75, 1].map((t) => held(t)))]);
    for (const name of ["straight", "taper", "main"] as const)
      expect(region(log, name).sigma).toBeLessThan(region(rides, name).sigma);
  });
  it("do not make an outlier of an instrument that disagrees: ten rides on target, one log 8 or 15 % lean", () => {
    const rides = Array.from({ length: 10 }, () => accepted(7));
    for (const lean of [0.08, 0.15]) {
      const both = calibrateFromRides(bike, [
        ...rides,
        ride([held(1, Math.exp(lean)), held(0.9, Math.exp(lean))]),
      ]);
      expect(value(both, "main")).toBeLessThan(-lean / 2);
    }
  });
  it("do not move the pilot, which is set by ear on the day", () => {
    const leaner = { ...settings, pilotJet: 37.5 };
    const before = calibrateFromRides(bike, []);
    const taught = calibrateFromRides(bike, [
      accepted(8, { settings: leaner }),
      accepted(9, { settings: leaner }),
    ]);
    expect(region(taught, "pilot").value).toBeCloseTo(region(before, "pilot").value, 9);
    expect(region(taught, "pilot").sigma).toBeCloseTo(region(before, "pilot").sigma, 9);
  });
});

describe("another bike of the model", () => {
  const lean = [held(0.9, 1.06), held(1, 1.06)];
  it("learns less from a log than the bike that was logged", () => {
    const own = region(calibrateFromRides(bike, [ride(lean)]), "main");
    const other = region(calibrateFromRides(bike, [ride(lean, { bikeId: 8 })]), "main");
    expect(Math.abs(other.value)).toBeLessThan(Math.abs(own.value));
    expect(other.sigma).toBeGreaterThan(own.sigma);
  });
  it("that is modified teaches a delivered one nothing, and the other way round", () => {
    const modified = { ...settings, airboxOpeningMm: 51, mainJet: 147.5 };
    const opened: AskingBike = { ...bike, reference: { settings: modified, air: here } };
    const none = calibrateFromRides(bike, []);
    const taught = calibrateFromRides(bike, [ride(lean, { bikeId: 8, settings: modified })]);
    const back = calibrateFromRides(opened, [ride(lean, { bikeId: 8 })]);
    const alike = calibrateFromRides(opened, [ride(lean, { bikeId: 8, settings: modified })]);
    for (const name of REGIONS) {
      expect(value(taught, name)).toBeCloseTo(0, 9);
      expect(region(taught, name).sigma).toBeCloseTo(region(none, name).sigma, 9);
      expect(value(back, name)).toBeCloseTo(0, 9);
    }
    expect(value(alike, "main")).toBeLessThan(-0.01);
  });
});

describe("a stock bike of a model whose other bikes taught it", () => {
  const found = { ...AS_FOUND, pilotJet: { value: 42.5, how: "read" as const } };
  const stock = Object.fromEntries(Object.entries(found).map(([key, k]) => [key, k.value]));
  const asking: AskingBike = { ...bike, reference: { settings: stock, air: here } };
  const lessons = [0.02, 0.06, 0.15, 0.3, 0.5, 0.9, 1].map((t) => held(t, 1.25));
  const sheet = targetSettings({
    ...OPENED,
    carburettors: [{ name: "c", settings: found }],
    changes: (["mainJet", "pilotJet", "clipPosition"] as const).map((setting) => ({
      setting,
      change: "computed",
    })),
    now: here,
    baseline: here,
    jets: [],
    calibration: calibrateFromRides(
      asking,
      [8, 9, 10, 11].map((bikeId) => ride(lessons, { bikeId, settings: stock })),
    ),
  });
  const setting = (key: string) => sheet.carburettors[0]?.settings.find((s) => s.key === key);
  it("gets no jet more than one step richer, and no clip more than one groove, while nothing was measured on it", () => {
    expect(setting("pilotJet")?.value).toBe(45);
    expect(setting("mainJet")?.value).toBe(142.5);
    expect(setting("clipPosition")?.value).toBe(4);
    expect(sheet.refusals.map((r) => r.setting)).toEqual(expect.arrayContaining(["pilotJet", "mainJet"]));
    for (const held of sheet.refusals) expect(held.message).toMatch(/more than one step richer/);
  });
});
