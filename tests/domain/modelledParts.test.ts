import { describe, expect, it } from "vitest";
import { answerLog } from "@/lib/domain/bench/logReading";
import { mainQuestion } from "@/lib/domain/bench/mainQuestion";
import { placeAir } from "@/lib/domain/bench/placeAir";
import type { RecommendInput } from "@/lib/domain/bench/recommendTypes";
import { springOnBike } from "@/lib/domain/bench/springOnBike";
import { settingForTrip } from "@/lib/domain/bench/trip";
import { calibrationPoint } from "@/lib/domain/tuning/calibrationPoint";
import type { DescribedPart } from "@/lib/domain/tuning/describedParts";
import { openingFor } from "@/lib/domain/tuning/expectedLog";
import { machineFrom } from "@/lib/domain/tuning/machine";
import { type ModelledParts, modelledParts } from "@/lib/domain/tuning/modelledParts";
import { meanSigma, narrowings } from "@/lib/domain/tuning/narrowing";
import { targetLambda } from "@/lib/domain/tuning/regions";
import { type AskingBike, calibrateFromRides, keptAir, type TaughtRide } from "@/lib/domain/tuning/ridden";
import type { SettingChange } from "@/lib/domain/tuning/settingChange";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { FuelState, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, mainJets } from "./tuning-demo";

const here = placeAir({ altitudeM: 410, temperatureC: 20, humidity: null });
const high = placeAir({ altitudeM: 2400, temperatureC: 32, humidity: null });
const soft = {
  kind: "spring",
  change: "exchanged",
  freeMm: 118,
  wireMm: null,
  coils: 21,
  rateNPerM: 60,
} as const satisfies DescribedPart;
const plain = { ...soft, change: "delivered", rateNPerM: null } as const;
const filter = { kind: "filter", name: "Foam", flowLMin: 1500, atPa: 1500 } as const;
const silencer = { kind: "silencer", name: "Can", flowLMin: 2500, atPa: 3000 } as const;
const opened: SettingValues = {
  ...Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value])),
  airboxOpeningMm: 51,
};

describe("described parts that the fuel model takes", () => {
  it("are spring, filter and silencer, and nothing where they tell no more than the sheet", () => {
    expect(modelledParts(undefined)).toEqual({});
    expect(modelledParts([{ kind: "liftHoles", holesMm: [2.2] }])).toEqual({});
    // A cut spring that nobody measured follows from the sheet's length and coils.
    expect(modelledParts([{ ...soft, change: "cut", rateNPerM: null }])).toEqual({});
    expect(modelledParts([{ ...soft, change: "cut", rateNPerM: 130 }]).spring?.rateNPerM).toBe(130);
    expect(modelledParts([plain]).spring).toEqual({
      freeMm: 118,
      coils: 21,
      rateNPerM: null,
      exchanged: false,
    });
    expect(modelledParts([filter, soft])).toEqual({
      spring: { freeMm: 118, coils: 21, rateNPerM: 60, exchanged: true },
      flows: { filter: { flowLMin: 1500, atPa: 1500 } },
    });
  });
});

describe("a bench that rebuilds a bike", () => {
  const changes: readonly SettingChange[] = [{ setting: "airboxOpeningMm", change: "set", value: 47 }];
  const input = (parts: readonly DescribedPart[], more: Partial<RecommendInput> = {}): RecommendInput => ({
    card: DROVER,
    carburettors: [{ name: "carburettor", settings: AS_FOUND, parts }],
    changes,
    baseline: here,
    airs: [{ name: "high", air: high }],
    jets: mainJets([140]),
    ...more,
  });
  const bySheet = (of: RecommendInput) =>
    targetSettings({
      ...of,
      changes: [...of.changes, { setting: "mainJet", change: "computed" }],
      now: high,
    }).carburettors[0]?.mainJet?.exact ?? Number.NaN;
  const overRange = (of: RecommendInput) => mainQuestion(of, of.changes, 140, high).exact;

  it("asks the same main jet of a range's corner as of that air alone, with whatever was described", () => {
    const bare = bySheet(input([]));
    for (const parts of [[soft], [filter], [silencer], [soft, filter, silencer]]) {
      const sheet = bySheet(input(parts));
      expect(Math.abs(sheet - bare)).toBeGreaterThan(0.05);
      expect(overRange(input(parts))).toBeCloseTo(sheet, 5);
    }
    expect(overRange(input([]))).toBeCloseTo(bare, 5);
  });
  it("does so for a described spring that the changes cut", () => {
    const cut = input([soft], {
      changes: [...changes, { setting: "springLengthMm", change: "set", value: 106 }],
    });
    expect(overRange(cut)).toBeCloseTo(bySheet(cut), 5);
    expect(Math.abs(bySheet(cut) - bySheet(input([soft])))).toBeGreaterThan(0.05);
  });
  it("does so for a needle without grooves, whose clip only the model card says", () => {
    const needle = DROVER.needle?.value;
    if (!needle) throw new Error("no needle");
    const clipPosition = { value: 4, how: "assumed" as const };
    const grooveless = input([], {
      carburettors: [
        {
          name: "carburettor",
          settings: { ...AS_FOUND, clipPosition },
          needle: { value: { ...needle, clips: 0, clipAt: 0 }, how: "measured" },
        },
      ],
    });
    expect(overRange(grooveless)).toBeCloseTo(bySheet(grooveless), 5);
  });
  it("asks the same of a trip's corner", () => {
    const trip = (parts: readonly DescribedPart[]) => {
      const { card, carburettors, jets } = input(parts);
      const there = { lowM: 2400, highM: 2400, coldC: 32, warmC: 32, humidity: null };
      return settingForTrip({ card, carburettors, jets, here, there }).corners[0]?.exact ?? Number.NaN;
    };
    const sheet = (parts: readonly DescribedPart[]) => bySheet(input(parts, { changes: [] }));
    for (const parts of [[], [soft], [filter, silencer]]) expect(trip(parts)).toBeCloseTo(sheet(parts), 5);
    expect(Math.abs(sheet([soft]) - sheet([]))).toBeGreaterThan(0.01);
    expect(Math.abs(sheet([filter, silencer]) - sheet([]))).toBeGreaterThan(0.01);
  });
  it("asks no other pilot jet for another spring, as for a cut one (common practice)", () => {
    const pilot = (partChanges: readonly Extract<DescribedPart, { kind: "spring" }>[]) =>
      targetSettings({ ...input([]), partChanges, now: here }).carburettors[0]?.pilotJet?.exact ?? Number.NaN;
    expect(pilot([soft])).toBeCloseTo(pilot([]), 6);
  });
});

describe("a spring whose rate nobody measured", () => {
  const rateOf = (now: DescribedPart, was: readonly DescribedPart[], settings = opened) =>
    machineFrom(DROVER, 1, settings, undefined, {
      springs: { now: modelledParts([now]).spring, reference: modelledParts(was).spring },
    }).springNow?.rateNPerM;
  it("is taken to be as stiff as the delivered one, whatever was fitted before it", () => {
    const unknown = { ...soft, rateNPerM: null };
    expect(rateOf(unknown, [])).toBe(110);
    expect(rateOf(unknown, [soft])).toBe(110);
    expect(rateOf(plain, [soft])).toBe(110);
    expect(rateOf(unknown, [], { ...opened, springLengthMm: 100, springCoils: 17.8 })).toBe(110);
    const cut = { ...soft, change: "cut", freeMm: 106, coils: 18.9, rateNPerM: 122 } as const;
    expect(rateOf(unknown, [cut])).toBe(110);
    // Of the delivered one itself somebody measured another rate than the card's.
    expect(rateOf(unknown, [{ ...plain, rateNPerM: 118 }])).toBe(118);
    expect(rateOf(soft, [])).toBe(60);
  });
});

describe("the spring that the slide's bench begins with", () => {
  const on = (parts: readonly DescribedPart[], more: object = {}, card = DROVER) =>
    springOnBike(card, { name: "c", settings: { ...AS_FOUND, ...more }, parts });
  it("is the described one, else the delivered one as the sheet cuts it (k N is constant, EN 13906-1)", () => {
    expect(on([])).toEqual({ rateNPerM: 110, coils: 21, freeMm: 118 });
    expect(on([soft])).toEqual({ rateNPerM: 60, coils: 21, freeMm: 118 });
    const read = <T>(value: T) => ({ value, how: "read" as const });
    const cut = on([], { springLengthMm: read(106.2), springCoils: read(18.9) });
    expect(cut).toEqual({
      rateNPerM: expect.closeTo(110 / 0.9, 9),
      coils: expect.closeTo(18.9, 9),
      freeMm: expect.closeTo(106.2, 9),
    });
  });
  it("has no rate where nobody knows one, and is none on a mechanical slide or where the sheet contradicts itself", () => {
    const { springRateNPerM: _, ...unrated } = DROVER;
    expect(on([], {}, unrated)).toMatchObject({ rateNPerM: null, freeMm: 118 });
    expect(on([plain], {}, unrated)?.rateNPerM).toBeNull();
    expect(on([soft], {}, unrated)?.rateNPerM).toBe(60);
    expect(on([], {}, { ...DROVER, carburettorType: { value: "mechanical", how: "read" } })).toBeNull();
    const apart = { springLengthMm: { value: 100, how: "read" }, springCoils: { value: 10, how: "read" } };
    expect(on([], apart)).toBeNull();
  });
});

/** The lambda that the model expects of a state at an opening. */
const modelled = (state: FuelState, throttle: number) =>
  targetLambda(throttle) * Math.exp(-calibrationPoint(state, here, throttle, { kind: "accepted" }).changed);
const OPENINGS = [0.15, 0.3, 0.5, 1];
const bikeWith = (parts: readonly DescribedPart[]): AskingBike => ({
  id: 7,
  card: DROVER,
  carburettors: 1,
  reference: { settings: opened, ...modelledParts(parts), air: here },
});
/** A ride on a bike with these parts that read just what the model says of them, from the reference of another. */
function rideWith(
  parts: readonly DescribedPart[],
  asking: AskingBike,
  more: Partial<TaughtRide> = {},
): TaughtRide {
  const { spring = undefined, flows } = modelledParts(parts);
  const fitted = spring ?? { freeMm: 118, coils: 21, rateNPerM: 110, exchanged: false };
  const state: FuelState = { ...asking, settings: opened, spring: fitted, flows };
  return {
    kind: "wideband",
    settings: opened,
    ...modelledParts(parts),
    air: keptAir(here),
    at: OPENINGS.map((throttle) => ({
      throttle,
      lambda: modelled(state, throttle),
      sigma: 0.015,
      rpm: 6000,
      seconds: 4,
    })),
    bikeId: 8,
    current: true,
    ...more,
  };
}
const greatest = (bike: AskingBike, ride: TaughtRide) =>
  Math.max(...calibrateFromRides(bike, [ride]).map((c) => Math.abs(c.value)));

describe("a lesson", () => {
  it("learned with another spring tells a bike nothing of itself that the spring explains, either way round", () => {
    for (const [own, others] of [
      [[], [soft]],
      [[soft], []],
      [[soft], [plain]],
    ] as const) {
      const bike = bikeWith(own);
      const ride = rideWith(others, bike);
      expect(
        Math.max(...ride.at.map((at) => Math.abs((at.lambda ?? 0) / targetLambda(at.throttle) - 1))),
      ).toBeGreaterThan(0.02);
      expect(greatest(bike, ride)).toBeLessThan(1e-6);
    }
    const { spring: _, ...forgotten } = rideWith([soft], bikeWith([]));
    expect(greatest(bikeWith([]), forgotten)).toBeGreaterThan(0.005);
  });
  it("learned with another filter or silencer neither, where both are known", () => {
    const wide: DescribedPart = { ...filter, flowLMin: 4000 };
    const free: DescribedPart = { ...silencer, flowLMin: 6000 };
    const bike = bikeWith([filter, silencer]);
    const ride = rideWith([wide, free], bike);
    expect(greatest(bike, ride)).toBeLessThan(1e-6);
    const { flows: _, ...forgotten } = ride;
    expect(greatest(bike, forgotten)).toBeGreaterThan(0.005);
  });
  it("measures a bike only with the spring, filter and silencer that it has now", () => {
    const measured = (now: readonly DescribedPart[], then: readonly DescribedPart[]) => {
      const bike = bikeWith(now);
      return calibrateFromRides(bike, [rideWith(then, bike, { bikeId: 7 })]).find((c) => c.region === "main")
        ?.measured;
    };
    expect(measured([], [])).toBe(true);
    expect(measured([soft], [soft])).toBe(true);
    expect(measured([soft, filter, silencer], [soft, filter, silencer])).toBe(true);
    // Described since, and found to be the delivered one.
    expect(measured([plain], [])).toBe(true);
    expect(measured([soft], [])).toBe(false);
    expect(measured([], [soft])).toBe(false);
    expect(measured([{ ...soft, freeMm: 114 }], [soft])).toBe(false);
    expect(measured([filter], [{ ...filter, flowLMin: 1600 }])).toBe(false);
    expect(measured([silencer], [{ ...silencer, atPa: 2900 }])).toBe(false);
    expect(measured([filter], [])).toBe(false);
  });
});

describe("a lambda log on the bench", () => {
  it("is read against the spring it was ridden with, from the one that the settings were accepted with", () => {
    const bike = bikeWith([]);
    const { at } = rideWith([soft], bike);
    const bins = at.map((one) => ({
      ...one,
      lambda: one.lambda ?? 0,
      sigma: 0.015,
      rpm: 6000,
      seconds: 4,
      samples: 40,
    }));
    const off = (parts: ModelledParts | undefined) =>
      Math.max(
        ...(
          answerLog(
            { bins, steady: 160, transient: 0, unreadable: 0 },
            { card: DROVER, carburettors: 1, settings: opened, baseline: here, parts },
            here,
          ).regions ?? []
        ).map((region) => Math.abs(region.value)),
      );
    expect(off(modelledParts([soft]))).toBeLessThan(1e-6);
    expect(off(undefined)).toBeGreaterThan(0.005);
  });
});

describe("the promise of what to measure first", () => {
  it("is what keeping such a log does on a bike with another needle, spring and filter, warm fuel and a raised needle", () => {
    const needle = DROVER.needle?.value;
    if (!needle) throw new Error("no needle");
    const bike = bikeWith([soft, filter]);
    const reference = {
      ...bike.reference,
      needle: { value: { ...needle, straightMm: 2.46 }, how: "measured" as const },
    };
    const asking: AskingBike = { ...bike, reference };
    const state: FuelState = {
      ...asking,
      settings: { ...opened, airboxOpeningMm: 40 },
      needle: { value: { ...needle, straightMm: 2.44 }, how: "computed" },
      ...modelledParts([plain, { ...filter, flowLMin: 3000 }]),
      fuelTemperatureK: 310,
      raisedMm: 0.5,
    };
    const promised = narrowings(state, here, { id: 7, rides: [] }).filter((n) => "region" in n.what);
    expect(promised.length).toBeGreaterThan(0);
    for (const n of promised) {
      const throttle = openingFor(asking, "region" in n.what ? n.what.region : "main") ?? 1;
      const log: TaughtRide = {
        kind: "wideband",
        settings: opened,
        needle: reference.needle.value,
        ...modelledParts([soft, filter]),
        air: keptAir(here),
        at: [{ throttle, lambda: targetLambda(throttle), sigma: 0.015, seconds: 2 }],
        bikeId: 7,
        current: true,
      };
      const kept = calibrateFromRides(asking, [log]);
      expect(meanSigma({ ...state, calibration: kept }, here)).toBeCloseTo(n.then, 9);
    }
  });
  it("takes an assumed spring rate as the delivered spring's, however the fitted one was cut", () => {
    const rate = DROVER.springRateNPerM?.value ?? 0;
    const card = { ...DROVER, springRateNPerM: { value: rate, how: "assumed" as const } };
    const settings = { ...opened, springLengthMm: 100, springCoils: 17.8 };
    const reference = { settings, air: here };
    const state: FuelState = {
      card,
      carburettors: 1,
      settings: { ...settings, airboxOpeningMm: 20 },
      reference,
    };
    const one = narrowings(state, here).find((n) => "fact" in n.what && n.what.fact === "springRateNPerM");
    expect(one?.then).toBeCloseTo(meanSigma({ ...state, card: DROVER }, here), 9);
  });
});
