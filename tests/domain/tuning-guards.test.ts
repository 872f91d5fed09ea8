import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { geopotentialM } from "@/lib/domain/air/isa";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import { boxDepressionPa } from "@/lib/domain/tuning/breathing";
import { calibrate } from "@/lib/domain/tuning/calibrate";
import { fuelCurve } from "@/lib/domain/tuning/fuelCurve";
import { fuelNamed } from "@/lib/domain/tuning/fuels";
import { seriesArea } from "@/lib/domain/tuning/jets";
import type { CalibrationPoint } from "@/lib/domain/tuning/lesson";
import { annulusMm2, needleDiameterMm, needleRaiseMm } from "@/lib/domain/tuning/needle";
import { type PowerStandard, powerFactor } from "@/lib/domain/tuning/power";
import { regionWeights } from "@/lib/domain/tuning/regions";
import { cvBalance, slidePortM2 } from "@/lib/domain/tuning/slide";
import { slideRiseS } from "@/lib/domain/tuning/slideRise";
import { cutSpring } from "@/lib/domain/tuning/spring";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { ModelCardFacts } from "@/lib/domain/tuning/targetTypes";
import { venturiAirFuelRatio } from "@/lib/domain/tuning/venturi";
import { AS_FOUND, DROVER, OPENED, PLAIN_AIR } from "./tuning-demo";

const slide = {
  boreM: 0.038,
  liftMaxM: 0.038,
  diaphragmM2: 0.0033,
  massKg: 0.042,
  rateNPerM: 110,
  freeM: 0.112,
  installedM: 0.08,
  discharge: 0.85,
  clearanceM: 0.0006,
};
const venturi = {
  airDischarge: 0.8,
  fuelDischarge: 0.65,
  throatM: 0.02,
  jetM: 0.00114,
  airDensityKgM3: 1.2,
  fuelDensityKgM3: 750,
  depressionPa: 8000,
  lipM: 0.005,
};
const step = { fromM: 0, toM: 0.02, depressionPa: 4000 };
const needle = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 3,
  clipStepMm: 1,
  clips: 5,
  tapers: [{ lengthMm: 40, includedAngleDeg: 1.79 }],
};
const point: CalibrationPoint = {
  kind: "wideband",
  weights: regionWeights(1),
  error: 0,
  sigma: 0.02,
  changed: 0,
  steady: true,
};
const taught = (change: Partial<CalibrationPoint>) =>
  calibrate([{ bike: 0, build: "delivered", sensor: "", points: [{ ...point, ...change }] }]);

describe("a primitive outside its range names quantity, value and range", () => {
  const refused = (name: string, quantity: RegExp, ...runs: readonly (() => unknown)[]) =>
    it(name, () => {
      for (const run of runs) {
        expect(run).toThrow(OutOfRange);
        expect(run).toThrow(quantity);
      }
    });
  refused(
    "in the venturi's air/fuel ratio",
    /discharge|throat|jet bore|density|depression|pressure/,
    () => venturiAirFuelRatio({ ...venturi, airDischarge: 0 }),
    () => venturiAirFuelRatio({ ...venturi, jetM: 0 }),
    () => venturiAirFuelRatio({ ...venturi, throatM: Number.NaN }),
    () => venturiAirFuelRatio({ ...venturi, airDensityKgM3: -1 }),
    () => venturiAirFuelRatio({ ...venturi, fuelDensityKgM3: 0 }),
    () => venturiAirFuelRatio({ ...venturi, depressionPa: Number.POSITIVE_INFINITY }),
    () => venturiAirFuelRatio({ ...venturi, upstreamPa: 0 }),
  );
  refused(
    "in a cut spring",
    /spring rate|free length|fitted length|coils left/,
    () => cutSpring(0, 0.112, 0.9, 0.08),
    () => cutSpring(110, Number.NaN, 0.9, 0.08),
    () => cutSpring(110, 0.112, 0.9, -0.01),
    () => cutSpring(110, 0.112, 1.1, 0.08),
  );
  refused(
    "in an airbox's depression",
    /air flow|air density|effective area/,
    () => boxDepressionPa(-0.1, 0.001, 1.2),
    () => boxDepressionPa(0.02, 0, 1.2),
    () => boxDepressionPa(0.02, 0.001, Number.NaN),
  );
  refused(
    "in a needle's ring and height",
    /needle|grooves/,
    () => annulusMm2(2.6, Number.NaN),
    () => annulusMm2(2.6, -1),
    () => needleRaiseMm({ ...needle, clipStepMm: 0 }, 3, 0),
    () => needleRaiseMm(needle, 3, Number.NaN),
  );
  refused(
    "in a slide's port, balance and rise",
    /lift|bore|density|depression|spring rate|mass|discharge|diaphragm/,
    () => slidePortM2(0.038, -0.001),
    () => slidePortM2(0, 0.01),
    () => slidePortM2(0.038, Number.NaN),
    () => cvBalance(slide, 0.02, 0),
    () => cvBalance({ ...slide, diaphragmM2: 0 }, 0.02, 1.2),
    () => cvBalance({ ...slide, rateNPerM: Number.NaN }, 0.02, 1.2),
    () => cvBalance(slide, 0.02, 1.2, Number.NaN),
    () => slideRiseS(slide, { ...step, fromM: -0.01 }, 5e-6, 1.2),
    () => slideRiseS(slide, step, 5e-6, 0),
    () => slideRiseS(slide, { ...step, depressionPa: Number.NaN }, 5e-6, 1.2),
    () => slideRiseS(slide, step, 5e-6, 1.2, 0),
  );
  refused(
    "in geopotential altitude",
    /altitude/,
    () => geopotentialM(-7e6),
    () => geopotentialM(Number.NaN),
  );
  refused(
    "in what a calibration is given",
    /sigma|richness|weight/,
    () => taught({ sigma: 0 }),
    () => taught({ sigma: Number.NaN }),
    () => taught({ error: Number.NaN }),
    () => taught({ weights: { ...regionWeights(1), main: Number.NaN } }),
  );
  it("or refuses in words: no orifice, an unknown fuel or standard, dry pressure above the whole", () => {
    const air = { dryPressurePa: 99_000, pressurePa: 101_000, temperatureK: 298 };
    expect(() => seriesArea()).toThrow(/no orifice/);
    expect(() => fuelNamed("E99")).toThrow(/"E99" is not known/);
    expect(() => fuelNamed("toString")).toThrow(Refusal);
    expect(() => powerFactor(air, "ISO 1" as PowerStandard)).toThrow(/"ISO 1" is not known/);
    expect(() => powerFactor({ ...air, dryPressurePa: 102_000 })).toThrow(/above the whole pressure/);
  });
});

describe("a needle and its clip", () => {
  const sheet = (clip: number, card: ModelCardFacts) =>
    targetSettings({
      ...OPENED,
      card,
      carburettors: [{ name: "c", settings: { ...AS_FOUND, clipPosition: { value: clip, how: "read" } } }],
    });
  it("refuse a groove that the needle has not", () => {
    expect(() => sheet(6, DROVER)).toThrow(/has 5 clip grooves; the clip is said to be in 6/);
    expect(() => sheet(5, DROVER)).not.toThrow();
  });
  it("that stands in for an unknown one has a groove for any clip on a sheet", () => {
    expect(() => sheet(7, { ...DROVER, needle: undefined })).not.toThrow();
  });
  it("refuse tapers that leave no needle, where they were held at 0.2 mm in silence", () => {
    const steep = { ...needle, tapers: [{ lengthMm: 40, includedAngleDeg: 6 }] };
    expect(() => needleDiameterMm(steep, 40)).toThrow(/tapers leave -?\d/);
    expect(needleDiameterMm(steep, 10)).toBeCloseTo(2.5 - 2 * 4 * Math.tan((3 * Math.PI) / 180), 9);
  });
});

describe("what stands in for missing facts", () => {
  it("never falls outside the library's own ranges, from a 30 cc single to a 3 litre four", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 3000, noNaN: true }),
        fc.integer({ min: 1, max: 4 }),
        fc.constantFrom("cv" as const, "mechanical" as const, undefined),
        fc.double({ min: 2000, max: 18_000, noNaN: true }),
        (cc, carburettors, type, rpm) => {
          const card: ModelCardFacts = {
            displacementCc: { value: cc, how: "read" },
            ratedRpm: { value: rpm, how: "read" },
            ...(type ? { carburettorType: { value: type, how: "read" } } : {}),
          };
          const reference = { settings: {}, air: PLAIN_AIR };
          const curve = fuelCurve({ card, carburettors, settings: {}, reference }, PLAIN_AIR, 6);
          expect(curve.points.every((p) => Number.isFinite(p.lambda))).toBe(true);
        },
      ),
      { numRuns: 200 },
    );
  });
});
