import { describe, expect, it } from "vitest";
import { placeAir } from "@/lib/domain/bench/placeAir";
import { recommend } from "@/lib/domain/bench/recommend";
import { settingForTrip } from "@/lib/domain/bench/trip";
import { targetLambda } from "@/lib/domain/tuning/regions";
import { calibrateFromRides, keptAir, type RiddenOpening, type TaughtRide } from "@/lib/domain/tuning/ridden";
import { AS_FOUND, DROVER, mainJets, OPENED } from "./tuning-demo";

const here = placeAir({ altitudeM: 0, temperatureC: 15, humidity: null });
const high = placeAir({ altitudeM: 3000, temperatureC: 30, humidity: null });
const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]));
const bike = { id: 7, card: DROVER, carburettors: 1, reference: { settings, air: here } };
const SIZES = Array.from({ length: 41 }, (_, i) => 100 + 2.5 * i);

const held = (throttle: number, change: Partial<RiddenOpening> = {}): RiddenOpening => ({
  throttle,
  lambda: targetLambda(throttle),
  sigma: 0.015,
  rpm: 5800,
  seconds: 4,
  ...change,
});
const ride = (at: RiddenOpening, change: Partial<TaughtRide> = {}): TaughtRide => ({
  kind: "wideband",
  settings,
  air: keptAir(here),
  at: [at],
  bikeId: 7,
  current: true,
  ...change,
});
const input = {
  card: DROVER,
  carburettors: OPENED.carburettors,
  changes: [{ setting: "mainJet", change: "computed" as const }],
  baseline: here,
  jets: mainJets(SIZES),
};
const mainIn = (air: typeof here, rides: readonly TaughtRide[]) =>
  recommend({
    ...input,
    airs: [{ name: "there", air }],
    calibration: calibrateFromRides(bike, rides),
  }).sheet.carburettors[0]?.mainJet?.chosen.size ?? 0;
const tripMain = (rides: readonly TaughtRide[]) =>
  settingForTrip({
    card: DROVER,
    carburettors: OPENED.carburettors,
    here,
    there: { lowM: 3000, highM: 3000, coldC: 30, warmC: 30, humidity: null },
    jets: mainJets(SIZES),
    calibration: calibrateFromRides(bike, rides),
  }).chosen.size;

describe("the limit of one leaner step", () => {
  const unmeasured = { recommended: mainIn(high, []), trip: tripMain([]) };
  const stays = (name: string, rides: readonly TaughtRide[]) =>
    it(`stays ${name}`, () => {
      expect(mainIn(high, rides)).toBeGreaterThanOrEqual(unmeasured.recommended);
      expect(tripMain(rides)).toBeGreaterThanOrEqual(unmeasured.trip);
    });
  stays("where one bin at 56 % throttle is on target", [ride(held(0.56))]);
  stays("where 86 % throttle is on target", [ride(held(0.86))]);
  stays("where full throttle was held too shortly", [ride(held(1, { seconds: 1 }))]);
  stays("where full throttle was held far below the rated speed", [ride(held(1, { rpm: 3000 }))]);
  stays("where the log has no engine speed", [ride(held(1, { rpm: undefined }))]);
  stays("after a full-load log of another bike of the model", [ride(held(1), { bikeId: 8 })]);
  stays("after a log from before the last work on the bike", [ride(held(1), { current: false })]);
  stays("after a log with another clip than now", [
    ride(held(1), { settings: { ...settings, clipPosition: 2 } }),
  ]);
  it("goes with a steady reading at full load on this bike as it is set now, for one air and for a trip", () => {
    expect(mainIn(high, [ride(held(1))])).toBeLessThan(unmeasured.recommended);
    expect(tripMain([ride(held(1))])).toBeLessThan(unmeasured.trip);
  });
});

describe("a full-throttle bin exactly on target", () => {
  it("leaves the fitted jet where it is, however often it is read", () => {
    for (const n of [1, 2, 5])
      expect(
        mainIn(
          here,
          Array.from({ length: n }, () => ride(held(1))),
        ),
      ).toBe(140);
  });
});
