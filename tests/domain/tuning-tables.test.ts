import { describe, expect, it } from "vitest";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import {
  boxDepressionPa,
  effectiveOpeningM2,
  pipeOrificeLoss,
  weldLoss,
} from "@/lib/domain/tuning/breathing";
import {
  FUELS,
  fuelDensityKgM3,
  fuelNamed,
  pistonSpeedMS,
  relativePhi,
  stoichiometricOfAlcohol,
  stoichiometricOfHydrocarbon,
} from "@/lib/domain/tuning/fuels";
import { compareJets, jetAreaMm2, jetSizeForArea, seriesArea } from "@/lib/domain/tuning/jets";
import { annulusMm2, grooveOf, needleDiameterMm, needleRaiseMm } from "@/lib/domain/tuning/needle";
import { needleProfile } from "@/lib/domain/tuning/needleProfile";
import {
  type CvSlide,
  cvBalance,
  holdingPressurePa,
  portDepressionPa,
  slidePortM2,
  slideRiseRatio,
} from "@/lib/domain/tuning/slide";
import { slideRiseS } from "@/lib/domain/tuning/slideRise";
import { cutSpring, springRateNPerM } from "@/lib/domain/tuning/spring";
import {
  deliveredSpring,
  fitsItsPlace,
  sameLength,
  settledSpring,
  springFrom,
} from "@/lib/domain/tuning/springCut";
import { shapedSpring } from "@/lib/domain/tuning/springShape";
import {
  compressibleFlowFactor,
  criticalPressureRatio,
  venturiAirFuelRatio,
} from "@/lib/domain/tuning/venturi";

const within = (value: number, expected: number, share: number) =>
  expect(Math.abs(value / expected - 1)).toBeLessThanOrEqual(share);

describe("losses of openings", () => {
  // Idelchik, Handbook of Hydraulic Resistance, orifice in a straight pipe (table over the area ratio), from memory.
  it.each([
    [0.1, 245],
    [0.2, 51.5],
    [0.3, 18.2],
    [0.4, 8.25],
    [0.6, 2],
    [0.7, 0.97],
    [0.8, 0.42],
    [0.9, 0.13],
  ])("has Idelchik's coefficient for an orifice of %d of the pipe's area", (f, k) => {
    within(pipeOrificeLoss(f), k, 0.035);
  });

  it("takes a 2 mm weld in a 38 mm pipe for an orifice of 80 % of its area, and none for none", () => {
    within(weldLoss(38, 2), 0.42, 0.035);
    expect(weldLoss(38, 0)).toBe(0);
    expect(() => weldLoss(38, 15.3)).toThrow("header weld is 15.3 mm, outside 0 to 15.2 mm.");
    expect(() => weldLoss(9, 0)).toThrow("header pipe is 9 mm");
  });

  // Bernoulli by hand: 30 l/s through 10 cm2 is 30 m/s; half of 1.2 x 900 is 540 Pa.
  it("has 540 Pa behind 10 cm2 at 30 l/s, four times as much behind half the area", () => {
    expect(boxDepressionPa(0.03, 0.001, 1.2)).toBeCloseTo(540, 9);
    expect(boxDepressionPa(0.03, 0.0005, 1.2)).toBeCloseTo(2160, 9);
    expect(boxDepressionPa(0, 0.001, 1.2)).toBe(0);
    expect(() => boxDepressionPa(6, 0.001, 1.2)).toThrow("air flow is 6 m3/s");
    expect(() => boxDepressionPa(0.03, 0.001, 3)).toThrow("air density is 3 kg/m3");
  });

  // Crane TP-410 entries: 0.78 for a pipe standing into the room, 0.5 for one flush with the wall; the velocity head is lost besides.
  it("adds a tube at the square root of its own loss: entry 0.78 re-entrant, 0.5 flush (Crane TP-410, from memory)", () => {
    const area = (Math.PI / 4) * 0.03 ** 2;
    expect(effectiveOpeningM2([{ diameterMm: 30, kind: "reentrant" }])).toBeCloseTo(
      area / Math.sqrt(1.78),
      12,
    );
    expect(effectiveOpeningM2([{ diameterMm: 30, kind: "flush" }])).toBeCloseTo(area / Math.sqrt(1.5), 12);
    expect(effectiveOpeningM2([])).toBe(0);
    const both = effectiveOpeningM2([
      { diameterMm: 30, kind: "flush" },
      { diameterMm: 30, kind: "reentrant" },
    ]);
    expect(both).toBeCloseTo(area / Math.sqrt(1.5) + area / Math.sqrt(1.78), 12);
    expect(() => effectiveOpeningM2([{ diameterMm: 301, kind: "wall" }])).toThrow("opening is 301 mm");
  });
});

describe("fuels", () => {
  // ASTM D1250-80, table 54B (gasolines): factor to 15 C for 745 kg/m3, worked with the standard's constants K0 346.4228, K1 0.4388.
  it.each([
    [745, 35, 0.9756],
    [745, 0, 1.018],
    [783, 30, 0.9831],
    [700, 25, 0.9866],
  ])(
    "of %d kg/m3 at 15 C are thinner or denser at %d C by ASTM D1250 table 54B",
    (density, celsius, factor) => {
      expect(fuelDensityKgM3(density, celsius + 273.15) / density).toBeCloseTo(factor, 3);
    },
  );

  // Complete combustion with air of 20.95 % oxygen, 28.96 g/mol: CH4 17.2, C8H18 15.1, C7H8 13.5, CH3OH 6.5, C2H5OH 9.0 (Heywood, table D.4).
  it("burn with the air that Heywood's table D.4 prints: methane 17.23, toluene 13.50, propane 15.67", () => {
    within(stoichiometricOfHydrocarbon(4), 17.23, 2e-3);
    within(stoichiometricOfHydrocarbon(8 / 7), 13.5, 2e-3);
    within(stoichiometricOfHydrocarbon(8 / 3), 15.67, 2e-3);
    within(stoichiometricOfAlcohol(3, 0.5), 9, 2e-3);
    expect(stoichiometricOfAlcohol(2, 0)).toBeCloseTo(stoichiometricOfHydrocarbon(2), 12);
    expect(() => stoichiometricOfHydrocarbon(5)).toThrow("hydrogen per carbon is 5");
    expect(() => stoichiometricOfAlcohol(5, 1)).toThrow("hydrogen per carbon is 5");
    expect(() => stoichiometricOfAlcohol(4, 3)).toThrow("oxygen per carbon is 3");
  });

  // Blends by mass: 10 % of ethanol by volume at 794 kg/m3 in petrol of 745 is 10.6 % by mass; 85 % is 85.8 %.
  it("are blends of 14.60 and 9.00 by mass: E10 14.01, E85 9.80", () => {
    const byMass = (volume: number) => (volume * 794) / (volume * 794 + (1 - volume) * 745);
    const blend = (volume: number) => 14.6 - byMass(volume) * (14.6 - 9);
    within(FUELS.E10.stoichiometric, blend(0.1), 1e-3);
    within(FUELS.E85.stoichiometric, blend(0.85), 1e-3);
    expect(FUELS.E0.stoichiometric).toBe(14.6);
    expect(fuelNamed("E85")).toBe(FUELS.E85);
    expect(() => fuelNamed("E5")).toThrow('The fuel "E5" is not known.');
  });

  const warm = { fuel: "E10", fuelTemperatureK: 288.15, densityKgM3: 1.2, dryDensityKgM3: 1.19 };
  it("make the same jets richer in thin air by the root of its density, and by their own ratio and density", () => {
    expect(relativePhi(warm, warm)).toBe(1);
    const thin = { ...warm, densityKgM3: 0.9, dryDensityKgM3: 0.8925 };
    expect(relativePhi(thin, warm)).toBeCloseTo(1 / Math.sqrt(0.75), 12);
    // Damp air: the same weight of mixture, less oxygen.
    expect(relativePhi({ ...warm, dryDensityKgM3: 1.17 }, warm)).toBeCloseTo(1.19 / 1.17, 12);
    const e85 = { ...warm, fuel: "E85" };
    expect(relativePhi(e85, warm)).toBeCloseTo((9.8 / 14.01) * Math.sqrt(783 / 750), 9);
    const hot = relativePhi({ ...warm, fuelTemperatureK: 308.15 }, warm);
    expect(hot).toBeCloseTo(Math.sqrt(fuelDensityKgM3(750, 308.15) / 750), 12);
    expect(() => relativePhi({ ...warm, dryDensityKgM3: 1.21 }, warm)).toThrow("dry-air density");
    expect(() => relativePhi({ ...warm, densityKgM3: 3 }, warm)).toThrow("air density");
  });

  it("let a piston of 60 mm stroke move at 20 m/s at 10,000 rpm (2 S N / 60)", () => {
    expect(pistonSpeedMS(0.06, 10_000)).toBeCloseTo(20, 12);
    expect(() => pistonSpeedMS(0.3, 1000)).toThrow("stroke is 0.3 m");
    expect(() => pistonSpeedMS(0.06, 26_000)).toThrow("engine speed is 26000 rpm");
  });
});

describe("jets and needles", () => {
  it("has 0.7854 mm2 in a bore of 1 mm, both numberings agreeing at 100 and parting beyond", () => {
    expect(jetAreaMm2(100, "bore")).toBeCloseTo(Math.PI / 4, 12);
    expect(jetAreaMm2(100, "flow")).toBeCloseTo(Math.PI / 4, 12);
    expect(jetAreaMm2(200, "bore")).toBeCloseTo(Math.PI, 12);
    expect(jetAreaMm2(200, "flow")).toBeCloseTo(Math.PI / 2, 12);
    expect(jetSizeForArea(Math.PI, "bore")).toBeCloseTo(200, 9);
    expect(jetSizeForArea(Math.PI, "flow")).toBeCloseTo(400, 9);
    expect(compareJets({ size: 100, convention: "flow" }, { size: 200, convention: "bore" })).toEqual({
      areaRatio: expect.closeTo(4, 12),
      note: expect.stringContaining("approximate"),
    });
    expect(() => jetSizeForArea(41, "bore")).toThrow("jet area is 41 mm2");
    expect(() => jetAreaMm2(601, "bore")).toThrow(OutOfRange);
  });

  // 3-4-5: one over area squared adds up as in resistors, 1/3^2 + 1/4^2 = (5/12)^2.
  it("passes through 3 and 4 mm2 in series what 2.4 mm2 would, and refuses no orifice at all", () => {
    expect(seriesArea(3, 4)).toBeCloseTo(2.4, 12);
    expect(seriesArea(7)).toBeCloseTo(7, 12);
    expect(() => seriesArea()).toThrow(Refusal);
    expect(() => seriesArea(1, 0)).toThrow("orifice area is 0");
  });

  const needle = {
    straightMm: 2.5,
    straightLiftMm: 6,
    clipAt: 3,
    clipStepMm: 0.9,
    clips: 5,
    tapers: [{ lengthMm: 10, includedAngleDeg: 2 }],
  };
  it("is straight up to its taper, thins along it, and stays thin below it", () => {
    expect(needleDiameterMm(needle, 6)).toBe(2.5);
    expect(needleDiameterMm(needle, -5)).toBe(2.5);
    const end = 2.5 - 20 * Math.tan(Math.PI / 180);
    expect(needleDiameterMm(needle, 16)).toBeCloseTo(end, 12);
    expect(needleDiameterMm(needle, 60)).toBeCloseTo(end, 12);
    expect(() => needleDiameterMm(needle, 121)).toThrow("needle height is 121 mm");
    const spent = { ...needle, tapers: [{ lengthMm: 10, includedAngleDeg: 14 }] };
    expect(() => needleDiameterMm(spent, 20)).toThrow("leave 0.04 mm at 20.0 mm of lift");
  });

  it("is raised by a lower clip and a higher seat, and lowered the other way round", () => {
    expect(needleRaiseMm(needle, 3, 0)).toBe(0);
    expect(needleRaiseMm(needle, 5, 0)).toBeCloseTo(1.8, 12);
    expect(needleRaiseMm(needle, 1, 0.3)).toBeCloseTo(-1.5, 12);
    expect([1, 5].map((clip) => grooveOf(needle, clip))).toEqual([1, 5]);
    for (const clip of [0, 6, 2.5])
      expect(() => grooveOf(needle, clip)).toThrow("The needle has 5 clip grooves");
    expect(() => annulusMm2(2.4, 2.5)).toThrow("does not pass");
    expect(() => annulusMm2(7, 2.5)).toThrow("needle jet is 7 mm");
    expect(() => annulusMm2(2.6, 0.05)).toThrow("needle diameter is 0.05 mm");
  });

  it("opens its ring from the straight part's 0.4006 mm2 as the slide lifts, in series with the main jet", () => {
    const setup = { needle, clip: 3, needleJetMm: 2.6, mainJet: 140, convention: "bore" as const };
    const profile = needleProfile(setup, 20, 5);
    expect(profile.map((p) => p.liftMm)).toEqual([0, 5, 10, 15, 20]);
    expect(profile[0]?.ringMm2).toBeCloseTo(0.4006, 4);
    const fifteen = profile[3];
    expect(fifteen?.needleMm).toBeCloseTo(2.5 - 18 * Math.tan(Math.PI / 180), 12);
    expect(fifteen?.circuitMm2).toBeCloseTo(
      1 / Math.sqrt(1 / (fifteen?.ringMm2 ?? 0) ** 2 + 1 / ((Math.PI / 4) * 1.96) ** 2),
      9,
    );
    expect(needleProfile({ ...setup, clip: 5 }, 20, 5)[2]?.needleMm).toBeCloseTo(
      needleDiameterMm(needle, 11.8),
      12,
    );
    expect(() => needleProfile(setup, 0.5)).toThrow("slide lift is 0.5 mm");
    expect(() => needleProfile(setup, 20, 1)).toThrow("points is 1");
    expect(needleProfile(setup, 20)).toHaveLength(40);
  });
});

describe("springs", () => {
  it("weaken with the cube of the coil and in proportion to coils, stiffen with the wire's fourth power (EN 13906-1)", () => {
    const base = springRateNPerM(0.001, 0.01, 10);
    // G 81.5 GPa: 81.5e9 x 1e-12 / (8 x 1e-6 x 10).
    expect(base).toBeCloseTo(1018.75, 6);
    expect(springRateNPerM(0.002, 0.01, 10) / base).toBeCloseTo(16, 9);
    expect(springRateNPerM(0.001, 0.02, 10) / base).toBeCloseTo(1 / 8, 9);
    expect(springRateNPerM(0.001, 0.01, 20) / base).toBeCloseTo(0.5, 9);
    expect(() => springRateNPerM(0.06, 0.1, 10)).toThrow("wire diameter");
    expect(() => springRateNPerM(0.01, 0.014, 10)).toThrow(
      "coil diameter is 0.014 m, outside 0.015 to 0.5 m.",
    );
    expect(() => springRateNPerM(0.001, 0.01, 0.1)).toThrow("active coils");
    expect(() => springRateNPerM(0.001, 0.01, 10, 1e6)).toThrow("shear modulus");
  });

  it("cut to nine tenths are 11.1 % stiffer, a tenth shorter and softer at their place by k0 Li / 9 (identity)", () => {
    const cut = cutSpring(100, 0.1, 0.9, 0.08);
    expect(cut.rateNPerM).toBeCloseTo(111.111, 3);
    expect(cut.freeM).toBeCloseTo(0.09, 12);
    expect(cut.forceChangeN).toBeCloseTo(-8 / 9, 9);
    expect(() => cutSpring(0.5, 0.1, 0.9, 0.08)).toThrow("spring rate is 0.5 N/m");
    expect(() => cutSpring(100, 0.5, 0.9, 0.08)).toThrow("free length is 0.5 m");
    expect(() => cutSpring(100, 0.1, 0.9, 0.5)).toThrow("fitted length is 0.5 m");
  });

  const base = { rateNPerM: 110, freeM: 0.112, coils: 20 };
  it("are told by coils or length, whichever changed, and both may say the same cut", () => {
    const was = { springLengthMm: 112, springCoils: 20 };
    const eighteen = { rateNPerM: 110 / 0.9, freeM: expect.closeTo(0.1008, 9), coils: 18 };
    expect(springFrom(base, was, was)).toEqual(base);
    expect(springFrom(base, was, { springLengthMm: 112 })).toEqual(base);
    expect(springFrom(base, was, { ...was, springCoils: 18 })).toEqual(eighteen);
    expect(springFrom(base, was, { springLengthMm: 100.8 })).toMatchObject({
      rateNPerM: expect.closeTo(110 / 0.9, 9),
      freeM: 0.1008,
      coils: expect.closeTo(18, 9),
    });
    // Shorter with all its coils is sagged and as stiff; longer with them is of another pitch and softer by its length.
    expect(springFrom(base, was, { springLengthMm: 100.8, springCoils: 20 })).toEqual({
      rateNPerM: 110,
      freeM: expect.closeTo(0.1008, 12),
      coils: 20,
    });
    expect(springFrom(base, was, { springLengthMm: 123.2, springCoils: 20 })).toMatchObject({
      rateNPerM: expect.closeTo(100, 9),
      freeM: 0.1232,
    });
    expect(springFrom(base, was, { springLengthMm: 101, springCoils: 18 })).toMatchObject({
      rateNPerM: 110 / 0.9,
      freeM: 0.101,
    });
    // 18 of 20 coils are 100.8 mm; 106.9 mm is 6.05 % off that, 106.8 mm is 5.95 %.
    expect(() => springFrom(base, was, { springLengthMm: 106.9, springCoils: 18 })).toThrow("not 106.9 mm");
    expect(springFrom(base, was, { springLengthMm: 106.8, springCoils: 18 }).freeM).toBeCloseTo(0.1068, 9);
    expect(() => springFrom(base, was, { springLengthMm: 94.7, springCoils: 18 })).toThrow("not 94.7 mm");
  });

  it("whose coils nobody counted go by their length, read to the millimetre", () => {
    const uncounted = { rateNPerM: 110, freeM: 0.112, coils: undefined };
    const was = { springLengthMm: 112 };
    expect(springFrom(uncounted, was, { springLengthMm: 100.8 })).toMatchObject({
      rateNPerM: expect.closeTo(110 / 0.9, 9),
      coils: undefined,
    });
    expect(springFrom(uncounted, was, { springLengthMm: 112.05 })).toMatchObject({
      rateNPerM: 110,
      freeM: 0.112,
    });
    expect(springFrom(uncounted, was, { springLengthMm: 112.1 }).freeM).toBeCloseTo(0.1121, 9);
    expect(springFrom(uncounted, was, { springLengthMm: 111.9 }).freeM).toBeCloseTo(0.1119, 9);
    expect(springFrom(uncounted, was, { springCoils: 18 })).toEqual(uncounted);
    expect(springFrom(uncounted, {}, { springLengthMm: 56 }).rateNPerM).toBeCloseTo(220, 9);
    expect(springFrom(uncounted, was, {})).toEqual(uncounted);
  });

  it("leave the sheet with the length and coils that follow, to a tenth and a hundredth", () => {
    const found = { springLengthMm: 112, springCoils: 20 };
    expect(settledSpring(found, found)).toEqual({});
    expect(settledSpring(found, { ...found, springCoils: 17.5 })).toEqual({
      springLengthMm: 98,
      springCoils: 17.5,
    });
    expect(settledSpring(found, { ...found, springLengthMm: 100 })).toEqual({
      springLengthMm: 100,
      springCoils: 17.86,
    });
    expect(settledSpring({ springLengthMm: 112 }, { springLengthMm: 100.04 })).toEqual({
      springLengthMm: 100,
    });
    expect(settledSpring({ springCoils: 20 }, { springCoils: 18 })).toEqual({});
  });

  it("that get longer are new ones: the sheet is left with the delivered spring's coils for that length", () => {
    const sagged = { springLengthMm: 108, springCoils: 20 };
    const asNew = { springLengthMm: 112, springCoils: 20 };
    expect(settledSpring(sagged, asNew, asNew)).toEqual({ springLengthMm: 112, springCoils: 20 });
    expect(settledSpring(sagged, { ...sagged, springLengthMm: 110 }, asNew)).toEqual({
      springLengthMm: 110,
      springCoils: 19.64,
    });
    // Nobody knows the delivered one: the coils go with the length.
    expect(settledSpring(sagged, asNew)).toEqual({ springLengthMm: 112, springCoils: 20.74 });
    expect(settledSpring(sagged, asNew, { springLengthMm: 112 })).toEqual({
      springLengthMm: 112,
      springCoils: 20.74,
    });
    // Cut ones do not ask the delivered spring, and recounted coils speak for themselves.
    expect(
      settledSpring(sagged, { ...sagged, springLengthMm: 97.2 }, { springLengthMm: 150, springCoils: 9 }),
    ).toEqual({
      springLengthMm: 97.2,
      springCoils: 18,
    });
    expect(settledSpring(sagged, { springLengthMm: 112, springCoils: 21 }, asNew)).toEqual({
      springLengthMm: 112,
      springCoils: 21,
    });
  });

  it("are as long as each other to half a tenth of a millimetre, and a card may not know the delivered one", () => {
    expect(sameLength(0.05, 0)).toBe(true);
    expect(sameLength(112, 112.06)).toBe(false);
    expect(sameLength(undefined, undefined)).toBe(false);
    expect(deliveredSpring({})).toEqual({ springLengthMm: undefined, springCoils: undefined });
    expect(
      deliveredSpring({ springFreeMm: { value: 112, how: "read" }, springCoils: { value: 20, how: "read" } }),
    ).toEqual({ springLengthMm: 112, springCoils: 20 });
  });

  it("fit their place when they are as long as it, and not when a hair shorter", () => {
    expect(fitsItsPlace(base, 0.112)).toBe(base);
    expect(() => fitsItsPlace(base, 0.1121)).toThrow("112.0 mm is shorter than its place of 112.1 mm");
  });

  it("have a shape whose rate is measured or follows from wire, coil and coils, within a quarter of each other", () => {
    const shape = { wireMm: 1, coilMm: 10, coils: 10, freeMm: 100, installedMm: 80 };
    const made = shapedSpring(shape);
    expect(made.rateNPerM).toBeCloseTo(1018.75, 6);
    expect(made.freeM).toBeCloseTo(0.1, 12);
    expect(made.because).toEqual([
      {
        fact: "Wire 1 mm, coil 10 mm, 10 coils",
        from: expect.stringContaining("EN 13906-1"),
        effect: "1019 N/m",
      },
    ]);
    expect(shapedSpring({ ...shape, rateNPerM: 1273 }).because[0]?.fact).toBe("Rate as measured");
    expect(() => shapedSpring({ ...shape, rateNPerM: 1274 })).toThrow("make 1019 N/m");
    expect(() => shapedSpring({ ...shape, rateNPerM: 764 })).toThrow("contradicts");
    expect(shapedSpring({ ...shape, rateNPerM: 765 }).rateNPerM).toBe(765);
    // A quarter exactly is within; a rate as measured wants none of the rest.
    expect(shapedSpring({ ...shape, rateNPerM: 1.25 * made.rateNPerM }).because).toEqual([
      { fact: "Rate as measured", from: "entered", effect: "1273 N/m" },
    ]);
    for (const missing of ["wireMm", "coilMm", "coils"] as const)
      expect(shapedSpring({ ...shape, [missing]: undefined, rateNPerM: 500 }).rateNPerM, missing).toBe(500);
    const fieldsOf = (said: Parameters<typeof shapedSpring>[0]) => {
      try {
        shapedSpring(said);
      } catch (error) {
        if (error instanceof Refusal) return Object.keys(error.fields);
      }
      throw new Error("it was not refused");
    };
    expect(fieldsOf({ ...shape, wireMm: 6, coilMm: 20, coils: 20 })).toEqual(["coils"]);
    expect(fieldsOf({ ...shape, rateNPerM: 5000 })).toEqual(["rate"]);
    expect(fieldsOf({ ...shape, installedMm: 101 })).toEqual(["springLengthMm"]);
    expect(shapedSpring({ ...shape, shearGPa: 163 }).rateNPerM).toBeCloseTo(2037.5, 6);
    expect(() => shapedSpring({ ...shape, coils: 100 })).toThrow("100 mm long when pressed solid");
    expect(shapedSpring({ ...shape, coils: 99 }).coils).toBe(99);
    expect(() => shapedSpring({ freeMm: 4, installedMm: 5, rateNPerM: 100 })).toThrow("free length is 4 mm");
    expect(() => shapedSpring({ freeMm: 100, installedMm: 4, rateNPerM: 100 })).toThrow("slide shut is 4 mm");
    expect(() => shapedSpring({ freeMm: 100, installedMm: 80, rateNPerM: 0.5 })).toThrow(
      "spring rate is 0.5 N/m",
    );
  });

  it("without a rate name what is missing", () => {
    const bare = { freeMm: 100, installedMm: 80 };
    const missing = (shape: Parameters<typeof shapedSpring>[0]) => {
      try {
        shapedSpring(shape);
      } catch (error) {
        if (error instanceof Refusal) return Object.keys(error.fields);
      }
      return [];
    };
    expect(missing(bare)).toEqual(["wire"]);
    expect(missing({ ...bare, wireMm: 1 })).toEqual(["coil"]);
    expect(missing({ ...bare, wireMm: 1, coilMm: 10 })).toEqual(["coils"]);
  });
});

const SLIDE: CvSlide = {
  boreM: 0.036,
  liftMaxM: 0.036,
  diaphragmM2: 0.003,
  massKg: 0.05,
  rateNPerM: 100,
  freeM: 0.1,
  installedM: 0.08,
  discharge: 0.8,
  clearanceM: 0,
};

describe("a slide", () => {
  // Circular segments: at a quarter of the diameter the segment is 0.1955 of the circle (handbook table), at three quarters the rest.
  it("opens 0.1955 of its bore at a quarter of lift and 0.8045 at three quarters (table of segments)", () => {
    const whole = (Math.PI / 4) * 0.036 ** 2;
    expect(slidePortM2(0.036, 0.009) / whole).toBeCloseTo(0.1955, 4);
    expect(slidePortM2(0.036, 0.027) / whole).toBeCloseTo(0.8045, 4);
    expect(slidePortM2(0.036, 0.1)).toBeCloseTo(whole, 12);
    expect(() => slidePortM2(0.2, 0.01)).toThrow("bore is 0.2 m");
    expect(() => slidePortM2(0.036, -0.001)).toThrow("slide lift is -0.001 m");
  });

  // By hand: 100 N/m over 20 mm is 2 N, 0.05 kg weighs 0.4903 N; on 30 cm2 that is 830 Pa, and 10 mm of lift add 1 N: 1163 Pa.
  it("is held up by spring and weight over the diaphragm: 830 Pa down, 1163 Pa at 10 mm", () => {
    expect(holdingPressurePa(SLIDE, 0)).toBeCloseTo(830.1, 1);
    expect(holdingPressurePa(SLIDE, 0.01)).toBeCloseTo(1163.4, 1);
    // A spring that is longer at its place than free pushes nothing: the weight alone, 163 Pa.
    expect(holdingPressurePa({ ...SLIDE, freeM: 0.07 }, 0)).toBeCloseTo(163.4, 1);
  });

  it("has the depression of Bernoulli in its port: 10 l/s through half a 36 mm bore at 0.8 is 361 Pa", () => {
    const area = (Math.PI / 8) * 0.036 ** 2;
    const speed = 0.01 / (0.8 * area);
    expect(portDepressionPa(SLIDE, 0.018, 0.01, 1.2)).toBeCloseTo(0.6 * speed ** 2, 9);
    expect(portDepressionPa({ ...SLIDE, clearanceM: 0.008 }, 0.01, 0.01, 1.2)).toBeCloseTo(
      0.6 * speed ** 2,
      9,
    );
  });

  it("stays down where nothing lifts it, stays up where all does, and balances between", () => {
    expect(cvBalance({ ...SLIDE, clearanceM: 0.001 }, 0.0001, 1.2).liftM).toBe(0);
    expect(cvBalance(SLIDE, 0.2, 1.2).liftM).toBe(0.036);
    const between = cvBalance(SLIDE, 0.015, 1.2);
    within(between.depressionPa, holdingPressurePa(SLIDE, between.liftM), 1e-6);
    expect(between.depressionPa).toBeCloseTo(portDepressionPa(SLIDE, between.liftM, 0.015, 1.2), 6);
    // What the diaphragm feels besides helps to lift, and is no part of the port's own depression.
    const helped = cvBalance(SLIDE, 0.015, 1.2, 300);
    expect(helped.liftM).toBeGreaterThan(between.liftM);
    within(helped.depressionPa + 300, holdingPressurePa(SLIDE, helped.liftM), 1e-6);
  });

  it("rises in the time that the holes take to let the air above it out: half the holes, twice the time", () => {
    const step = { fromM: 0, toM: 0.01, depressionPa: 2000 };
    const time = slideRiseS(SLIDE, step, 1e-5, 1.2);
    expect(slideRiseS(SLIDE, step, 5e-6, 1.2)).toBeCloseTo(2 * time, 9);
    expect(slideRiseS(SLIDE, step, 1e-5, 1.2, 0.3)).toBeCloseTo(2 * time, 9);
    expect(slideRiseS(SLIDE, step, 1e-5, 0.3)).toBeCloseTo(time / 2, 9);
    // Between the times at the least and the greatest pressure left: 837 and 1170 Pa through 6 mm2 of jet.
    const at = (pa: number) => (0.003 * 0.01) / (0.6 * 1e-5 * Math.sqrt((2 * pa) / 1.2));
    expect(time).toBeGreaterThan(at(1169.9));
    expect(time).toBeLessThan(at(836.6));
    // Without a spring the pressure left is the same all the way.
    const even = { ...SLIDE, rateNPerM: 0 };
    expect(slideRiseS(even, step, 1e-5, 1.2)).toBeCloseTo(at(2000 - 163.44), 6);
    expect(() => slideRiseS(SLIDE, { ...step, depressionPa: 1163 }, 1e-5, 1.2)).toThrow("does not lift");
    expect(slideRiseRatio({ count: 2, holeMm: 2 }, { count: 2, holeMm: 2 })).toBe(1);
    expect(() => slideRiseRatio({ count: 1, holeMm: 2 }, { count: 0, holeMm: 2 })).toThrow(
      "without lift holes",
    );
  });
});

describe("an elementary carburettor", () => {
  const v = {
    airDischarge: 0.8,
    fuelDischarge: 0.65,
    throatM: 0.02,
    jetM: 0.00114,
    airDensityKgM3: 1.2,
    fuelDensityKgM3: 750,
    depressionPa: 8000,
    lipM: 0,
  };
  // Heywood figure 7-10: the compressible factor falls from 1 to 0.85 at a throat pressure ratio of 0.75 (read off, +- 0.01).
  it("has a compressible factor of 0.85 at a pressure ratio of 0.75 (Heywood, figure of 7.2, read off)", () => {
    expect(Math.abs(compressibleFlowFactor(0.75) - 0.85)).toBeLessThan(0.015);
    expect(compressibleFlowFactor(0.999_999)).toBeCloseTo(1, 5);
    const upstreamPa = 100_000;
    expect(
      venturiAirFuelRatio({ ...v, depressionPa: 25_000, upstreamPa }) / venturiAirFuelRatio(v),
    ).toBeCloseTo(compressibleFlowFactor(0.75), 9);
    expect(() => compressibleFlowFactor(0.5)).toThrow("pressure ratio is 0.5");
  });

  it("chokes later with a monatomic gas: 0.487 for 1.667 (gas tables)", () => {
    expect(criticalPressureRatio(5 / 3)).toBeCloseTo(0.487, 3);
    expect(() => criticalPressureRatio(1)).toThrow("heat capacity ratio is 1");
  });

  // 750 kg/m3 over 5 mm is 36.8 Pa.
  it("lifts its fuel over a lip of 5 mm from 36.8 Pa on", () => {
    expect(() => venturiAirFuelRatio({ ...v, lipM: 0.005, depressionPa: 36.7 })).toThrow("(37 Pa)");
    expect(venturiAirFuelRatio({ ...v, lipM: 0.005, depressionPa: 36.9 })).toBeGreaterThan(100);
    expect(() => venturiAirFuelRatio({ ...v, depressionPa: 0 })).toThrow(Refusal);
  });

  it.each([
    [{ airDischarge: 0.2 }, "air discharge coefficient"],
    [{ fuelDischarge: 1.1 }, "fuel discharge coefficient"],
    [{ throatM: 0.2 }, "throat"],
    [{ jetM: 0.01 }, "jet bore"],
    [{ airDensityKgM3: 3 }, "air density"],
    [{ fuelDensityKgM3: 1200 }, "fuel density"],
    [{ depressionPa: 70_000 }, "throat depression"],
    [{ upstreamPa: 20_000 }, "upstream pressure"],
    [{ lipM: 0.2 }, "lip"],
  ])("refuses %o by name", (odd, name) => {
    expect(() => venturiAirFuelRatio({ ...v, ...odd })).toThrow(name);
  });
});
