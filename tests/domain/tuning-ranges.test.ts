import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { boxDepressionPa, effectiveOpeningM2, weldLoss } from "@/lib/domain/tuning/breathing";
import { fuelDensityKgM3, fuelNamed, pistonSpeedMS, relativePhi } from "@/lib/domain/tuning/fuels";
import { annulusMm2, grooveOf, needleDiameterMm, needleRaiseMm } from "@/lib/domain/tuning/needle";
import { cvBalance, slidePortM2, slideRiseRatio } from "@/lib/domain/tuning/slide";
import { slideRiseS } from "@/lib/domain/tuning/slideRise";
import { cutSpring, springRateNPerM } from "@/lib/domain/tuning/spring";
import { fitsItsPlace, springFrom } from "@/lib/domain/tuning/springCut";

const needle = {
  straightMm: 2.5,
  straightLiftMm: 6,
  clipAt: 3,
  clipStepMm: 1,
  clips: 5,
  tapers: [{ lengthMm: 10, includedAngleDeg: 2 }],
};
const slide = {
  boreM: 0.036,
  liftMaxM: 0.036,
  diaphragmM2: 0.003,
  massKg: 0.05,
  rateNPerM: 100,
  freeM: 0.1,
  installedM: 0.08,
  discharge: 0.8,
  clearanceM: 0.0006,
};
const air = { fuel: "E10", fuelTemperatureK: 290, densityKgM3: 1.2, dryDensityKgM3: 1.19 };
const rise = (
  odd: Partial<{ fromM: number; toM: number; depressionPa: number }>,
  rest: readonly number[] = [],
) =>
  slideRiseS(
    slide,
    { fromM: 0, toM: 0.01, depressionPa: 3000, ...odd },
    rest[0] ?? 1e-5,
    rest[1] ?? 1.2,
    rest[2],
  );
const refusalOf = (run: () => unknown): Refusal => {
  try {
    run();
  } catch (error) {
    if (error instanceof Refusal) return error;
  }
  throw new Error("it was not refused");
};

describe("a quantity outside its range is named with its value, its unit and its range", () => {
  it.each<[string, () => unknown]>([
    ["needle height is 121 mm, outside -20 to 120 mm.", () => needleDiameterMm(needle, 121)],
    [
      "needle diameter is 7 mm, outside 0.5 to 6 mm.",
      () => needleDiameterMm({ ...needle, straightMm: 7 }, 1),
    ],
    ["needle jet is 7 mm, outside 1 to 6 mm.", () => annulusMm2(7, 2)],
    ["needle diameter is 8 mm, outside 0.1 to 7 mm.", () => annulusMm2(2.6, 8)],
    [
      "distance between clip grooves is 6 mm, outside 0.1 to 5 mm.",
      () => needleRaiseMm({ ...needle, clipStepMm: 6 }, 3, 0),
    ],
    ["clip grooves raised is -11, outside -10 to 10.", () => needleRaiseMm(needle, -8, 0)],
    ["needle seat change is 11 mm, outside -10 to 10 mm.", () => needleRaiseMm(needle, 3, 11)],
    [
      "needle seat change is -11 mm, outside -10 to 10 mm.",
      () => needleRaiseMm({ ...needle, clips: 0 }, 3, -11),
    ],
    ["fuel density is 900 kg/m3, outside 650 to 850 kg/m3.", () => fuelDensityKgM3(900, 290)],
    ["fuel temperature is 400 K, outside 233 to 353 K.", () => fuelDensityKgM3(750, 400)],
    ["stroke is 0.3 m, outside 0.01 to 0.2 m.", () => pistonSpeedMS(0.3, 1000)],
    ["engine speed is 26000 rpm, outside 0 to 25000 rpm.", () => pistonSpeedMS(0.06, 26_000)],
    ["air density is 3 kg/m3, outside 0.2 to 2 kg/m3.", () => relativePhi({ ...air, densityKgM3: 3 }, air)],
    [
      "dry-air density is 1.3 kg/m3, outside 0.2 to 1.2 kg/m3.",
      () => relativePhi({ ...air, dryDensityKgM3: 1.3 }, air),
    ],
    ["bore is 0.2 m, outside 0.005 to 0.1 m.", () => slidePortM2(0.2, 0.01)],
    ["slide lift is 0.2 m, outside 0 to 0.11 m.", () => slidePortM2(0.036, 0.2)],
    ["air flow is 3 m3/s, outside 0 to 2 m3/s.", () => cvBalance(slide, 3, 1.2)],
    ["air density is 3 kg/m3, outside 0.2 to 2 kg/m3.", () => cvBalance(slide, 0.01, 3)],
    [
      "extra depression is -20001 Pa, outside -20000 to 100000 Pa.",
      () => cvBalance(slide, 0.01, 1.2, -20_001),
    ],
    ["full lift is 0.2 m, outside 0.0001 to 0.1 m.", () => cvBalance({ ...slide, liftMaxM: 0.2 }, 0.01, 1.2)],
    [
      "diaphragm area is 0.1 m2, outside 0.00005 to 0.05 m2.",
      () => cvBalance({ ...slide, diaphragmM2: 0.1 }, 0.01, 1.2),
    ],
    ["slide mass is 2 kg, outside 0.0001 to 1 kg.", () => cvBalance({ ...slide, massKg: 2 }, 0.01, 1.2)],
    [
      "spring rate is 20000 N/m, outside 0 to 10000 N/m.",
      () => cvBalance({ ...slide, rateNPerM: 20_000 }, 0.01, 1.2),
    ],
    ["discharge coefficient is 2, outside 0.3 to 1.", () => cvBalance({ ...slide, discharge: 2 }, 0.01, 1.2)],
    [
      "lift hole is 0.2 mm, outside 0.3 to 8 mm.",
      () => slideRiseRatio({ count: 1, holeMm: 0.2 }, { count: 1, holeMm: 2 }),
    ],
    ["lift at the start is -1 m, outside 0 to 0.036 m.", () => rise({ fromM: -1 })],
    ["lift is 0.04 m, outside 0 to 0.036 m.", () => rise({ toM: 0.04 })],
    ["depression is 100001 Pa, outside 0 to 100000 Pa.", () => rise({ depressionPa: 100_001 })],
    ["lift-hole area is 1 m2, outside 1e-8 to 0.001 m2.", () => rise({}, [1])],
    ["air density is 3 kg/m3, outside 0.2 to 2 kg/m3.", () => rise({}, [1e-5, 3])],
    ["discharge coefficient of the holes is 2, outside 0.3 to 1.", () => rise({}, [1e-5, 1.2, 2])],
    ["wire diameter is 0.06 m, outside 0.00005 to 0.05 m.", () => springRateNPerM(0.06, 0.2, 10)],
    ["coil diameter is 0.6 m, outside 0.0015 to 0.5 m.", () => springRateNPerM(0.001, 0.6, 10)],
    [
      "shear modulus is 1 Pa, outside 1000000000 to 200000000000 Pa.",
      () => springRateNPerM(0.001, 0.01, 10, 1),
    ],
    ["spring rate is 0.5 N/m, outside 1 to 10000 N/m.", () => cutSpring(0.5, 0.1, 0.9, 0.08)],
    ["free length is 0.5 m, outside 0.005 to 0.4 m.", () => cutSpring(100, 0.5, 0.9, 0.08)],
    ["fitted length is 0.5 m, outside 0.001 to 0.4 m.", () => cutSpring(100, 0.1, 0.9, 0.5)],
    [
      "opening is 301 mm, outside 0 to 300 mm.",
      () => effectiveOpeningM2([{ diameterMm: 301, kind: "wall" }]),
    ],
    ["airbox effective area is 2 m2, outside 0.000001 to 1 m2.", () => boxDepressionPa(0.01, 2, 1.2)],
    ["air flow is 6 m3/s, outside 0 to 5 m3/s.", () => boxDepressionPa(6, 0.001, 1.2)],
    ["air density is 3 kg/m3, outside 0.2 to 2 kg/m3.", () => boxDepressionPa(0.01, 0.001, 3)],
    ["header pipe is 9 mm, outside 10 to 120 mm.", () => weldLoss(9, 0)],
    ["header weld is 20 mm, outside 0 to 15.2 mm.", () => weldLoss(38, 20)],
  ])("%s", (message, run) => {
    expect(refusalOf(run).message).toBe(message);
  });

  it("or the field on the form that it belongs to", () => {
    const field = (run: () => unknown) => refusalOf(run).fields;
    expect(field(() => fuelNamed("E5"))).toEqual({ fuel: "Not a known fuel." });
    expect(refusalOf(() => fuelNamed("E5")).remedy).toBe("Choose among E0, E10, E85.");
    expect(field(() => grooveOf(needle, 6))).toEqual({ clipPosition: "1 to 5." });
    expect(field(() => grooveOf({ ...needle, clips: 0 }, 1))).toEqual({
      clipPosition: "This needle has no grooves.",
    });
    expect(refusalOf(() => grooveOf({ ...needle, clips: 0 }, 1)).message).toBe(
      "The needle has no grooves; a clip is said to be in groove 1.",
    );
    expect(Object.keys(field(() => fitsItsPlace({ rateNPerM: 100, freeM: 0.07, coils: 20 }, 0.08)))).toEqual([
      "springLengthMm",
    ]);
    const base = { rateNPerM: 110, freeM: 0.112, coils: 20 };
    const both = { springLengthMm: 90, springCoils: 18 };
    expect(
      Object.keys(field(() => springFrom(base, { springLengthMm: 112, springCoils: 20 }, both))),
    ).toEqual(["springLengthMm"]);
  });
});

describe("a needle without grooves", () => {
  it("is raised by its seat and shims alone, by as much either way", () => {
    expect(needleRaiseMm({ ...needle, clips: 0 }, 3, 10)).toBe(10);
    expect(needleRaiseMm({ ...needle, clips: 0 }, 1, -10)).toBe(-10);
    expect(needleRaiseMm({ ...needle, clips: 0 }, 5, 0.5)).toBe(0.5);
  });
});
