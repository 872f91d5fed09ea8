import { createRequire } from "node:module";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { standardAir } from "@/lib/domain/air/isa";
import { OutOfRange, Refusal } from "@/lib/domain/refusal";
import {
  boxDepressionPa,
  effectiveOpeningM2,
  pipeOrificeLoss,
  weldLoss,
  wideningLoss,
} from "@/lib/domain/tuning/breathing";
import { expectedLoss, leastLoss, normalBelow, probabilityLeaner } from "@/lib/domain/tuning/choose";
import {
  FUELS,
  fuelDensityKgM3,
  pistonSpeedMS,
  stoichiometricOfAlcohol,
  stoichiometricOfHydrocarbon,
} from "@/lib/domain/tuning/fuels";
import { compareJets, jetAreaMm2, jetSizeForArea, seriesArea } from "@/lib/domain/tuning/jets";
import { annulusMm2, needleDiameterMm, needleRaiseMm } from "@/lib/domain/tuning/needle";
import { meanRingMm2, needleProfile } from "@/lib/domain/tuning/needleProfile";
import { powerFactor } from "@/lib/domain/tuning/power";
import {
  type CvSlide,
  cvBalance,
  holdingPressurePa,
  slidePortM2,
  slideRiseRatio,
} from "@/lib/domain/tuning/slide";
import { slideRiseS } from "@/lib/domain/tuning/slideRise";
import { cutSpring, springRateNPerM } from "@/lib/domain/tuning/spring";
import {
  compressibleFlowFactor,
  criticalPressureRatio,
  venturiAirFuelRatio,
} from "@/lib/domain/tuning/venturi";

const require = createRequire(import.meta.url);
const Qty = require("js-quantities") as (text: string) => { to(unit: string): { scalar: number } };
const { Solver } = require("odex") as { Solver: new (equations: number) => OdeSolver };
interface OdeSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(f: (t: number, y: number[]) => number[], t0: number, y0: number[], t1: number): { y: number[] };
}
const si = (text: string, unit: string) => Qty(text).to(unit).scalar;
const near = (value: number, expected: number, relative: number) =>
  expect(Math.abs(value / expected - 1)).toBeLessThanOrEqual(relative);

describe("power correction", () => {
  const air = (pd: number, T: number, p = pd) => ({ dryPressurePa: pd, pressurePa: p, temperatureK: T });
  it("is 1 in each standard's own reference air (identity)", () => {
    for (const s of ["EU 134/2014", "ISO 1585", "SAE J1349"] as const)
      expect(powerFactor(air(99_000, 298), s).factor).toBeCloseTo(1, 12);
    expect(powerFactor(air(99_000, 293, 101_300), "DIN 70020").factor).toBeCloseTo(1, 12);
  });
  it("is 1.07175 (EU, ISO) and 1.06994 (J1349) at 95 kPa dry and 308 K (identity)", () => {
    near(powerFactor(air(95_000, 308)).factor, 1.07175, 1e-5);
    near(powerFactor(air(95_000, 308), "ISO 1585").factor, 1.07175, 1e-5);
    near(powerFactor(air(95_000, 308), "SAE J1349").factor, 1.06994, 1e-5);
  });
  it("says when a standard does not correct that far, and refuses impossible air", () => {
    expect(powerFactor(air(95_000, 308), "ISO 1585").allowed).toBe(false);
    expect(powerFactor(air(99_000, 320)).because[1]?.effect).toBe("state the conditions with the power");
    expect(() => powerFactor(air(20_000, 300))).toThrow(OutOfRange);
  });
});

describe("elementary carburettor", () => {
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
  it("gives A/F 15.153, and 15.188 with a 5 mm lip at 8 kPa (443 solved problems, ex. 8.5, recomputed)", () => {
    near(venturiAirFuelRatio(v), 15.153, 1e-3);
    near(venturiAirFuelRatio({ ...v, lipM: 0.005 }), 15.188, 1e-3);
  });
  it("is leaner incompressible than compressible, and refuses a depression that lifts nothing", () => {
    expect(venturiAirFuelRatio({ ...v, upstreamPa: 101_325 })).toBeLessThan(venturiAirFuelRatio(v));
    expect(compressibleFlowFactor(1)).toBe(1);
    expect(() => venturiAirFuelRatio({ ...v, depressionPa: 20, lipM: 0.005 })).toThrow(Refusal);
    const refused = (change: Partial<typeof v> & { upstreamPa?: number }, words: string) =>
      expect(() => venturiAirFuelRatio({ ...v, ...change })).toThrow(words);
    refused({ throatM: 0.2 }, "throat is 0.2 m, outside");
    refused({ jetM: 0.01 }, "jet bore is 0.01 m, outside");
    refused({ airDensityKgM3: 3 }, "air density is 3 kg/m3, outside");
    refused({ fuelDensityKgM3: 1200 }, "fuel density is 1200 kg/m3, outside");
    refused({ depressionPa: 70_000 }, "throat depression is 70000 Pa, outside");
    refused({ upstreamPa: 20_000 }, "upstream pressure is 20000 Pa, outside");
    refused({ lipM: 0.2 }, "lip is 0.2 m, outside");
  });
  it("chokes at 0.5283 (gas tables)", () => {
    expect(criticalPressureRatio()).toBeCloseTo(0.5283, 4);
  });
});

describe("jets and needle", () => {
  it("has a ring of 0.4006 mm2 between 2.60 and 2.50 mm, and A/sqrt 2 for two equal orifices in series (identity)", () => {
    expect(Math.abs(annulusMm2(2.6, 2.5) - 0.4006)).toBeLessThanOrEqual(1e-4);
    near(seriesArea(3, 3), 3 / Math.SQRT2, 1e-12);
  });
  it("never lets a series flow more than its smaller member", () => {
    const area = fc.double({ min: 0.01, max: 20, noNaN: true });
    fc.assert(
      fc.property(area, area, (a, b) => {
        expect(seriesArea(a, b)).toBeLessThan(Math.min(a, b) * (1 + 1e-12));
      }),
    );
  });
  it("makes main 140 to 150 14.8 % more area by bore, 7.1 % by flow, and calls a mixed comparison approximate", () => {
    const jet = (size: number, convention: "bore" | "flow") => ({ size, convention });
    near(compareJets(jet(140, "bore"), jet(150, "bore")).areaRatio, 1.148, 1e-3);
    near(compareJets(jet(140, "flow"), jet(150, "flow")).areaRatio, 1.0714, 1e-3);
    expect(compareJets(jet(140, "bore"), jet(196, "flow")).note).toContain("approximate");
    expect(compareJets(jet(140, "bore"), jet(150, "bore")).note).toBe("");
  });
  it("gives a size back from its area in both numberings", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10, max: 300 }),
        fc.constantFrom("bore" as const, "flow" as const),
        (s, c) => {
          expect(jetSizeForArea(jetAreaMm2(s, c), c)).toBeCloseTo(s, 8);
        },
      ),
    );
    expect(() => jetAreaMm2(Number.NaN, "bore")).toThrow(OutOfRange);
  });
  it("follows straight part and tapers: d falls by 2 dx tan(angle/2) (geometry)", () => {
    const needle = {
      straightMm: 2.5,
      straightLiftMm: 6,
      clipAt: 3,
      clipStepMm: 1,
      clips: 5,
      tapers: [
        { lengthMm: 10, includedAngleDeg: 2 },
        { lengthMm: 10, includedAngleDeg: 4 },
      ],
    };
    expect(needleDiameterMm(needle, 5)).toBe(2.5);
    expect(needleDiameterMm(needle, 11)).toBeCloseTo(2.5 - 10 * Math.tan(Math.PI / 180), 12);
    expect(needleDiameterMm(needle, 21)).toBeCloseTo(
      2.5 - 20 * Math.tan(Math.PI / 180) - 10 * Math.tan(Math.PI / 90),
      12,
    );
    expect(needleRaiseMm(needle, 4, 0.5)).toBe(1.5);
    expect(() => annulusMm2(2.6, 2.6)).toThrow(/does not pass/);
  });
  it("moves metering about 1 % at 3 to 6 mm lift and 11 % at 30 mm for main 140 to 150 (common practice, no source)", () => {
    const needle = {
      straightMm: 2.5,
      straightLiftMm: 6,
      clipAt: 3,
      clipStepMm: 1,
      clips: 5,
      tapers: [{ lengthMm: 40, includedAngleDeg: 1.79 }],
    };
    const profile = (mainJet: number) =>
      needleProfile({ needle, clip: 3, needleJetMm: 2.6, mainJet, convention: "bore" }, 30, 31);
    const gain = (i: number) => (profile(150)[i]?.circuitMm2 ?? 0) / (profile(140)[i]?.circuitMm2 ?? 1) - 1;
    expect(Math.abs(gain(4) - 0.01)).toBeLessThan(0.005);
    expect(Math.abs(gain(30) - 0.11)).toBeLessThan(0.01);
  });
  it("asks for 0.8615 of the jet area at 3000 m in standard air (identity)", () => {
    near(Math.sqrt(standardAir(3000).densityKgM3 / standardAir(0).densityKgM3), 0.8615, 1e-4);
  });
});

describe("springs", () => {
  it("gives 4.13 lbf/in = 723.5 N/m (Shigley, from memory)", () => {
    const k = springRateNPerM(si("0.037 in", "m"), si("0.4 in", "m"), 10.5, si("11850000 psi", "Pa"));
    near(k, 723.5, 0.005);
    near(k / si("1 lbf/in", "N/m"), 4.13, 0.005);
  });
  it("needs 8 coils for 1250 N at 30 mm with d 7, D 42, and is 109.3376 mm free (Bhandari ex. 10.1)", () => {
    const one = springRateNPerM(0.007, 0.042, 1, 81_370e6);
    expect(Math.round(one / (1250 / 0.03))).toBe(8);
    const deflection = (1250 / springRateNPerM(0.007, 0.042, 8, 81_370e6)) * 1000;
    // 10 coils solid, 9 gaps of 1 mm, and the deflection.
    near(70 + 9 + deflection, 109.3376, 1e-4);
  });
  it("cut 112 to 100 mm is x 1.12 in rate, and loses exactly k0 Li (N0/N1 - 1) at the installed length (identity)", () => {
    const cut = cutSpring(110, 0.112, 100 / 112, 0.08);
    near(cut.rateRatio, 1.12, 1e-12);
    const force = (k: number, free: number) => k * (free - 0.08);
    expect(cut.forceChangeN).toBeCloseTo(force(cut.rateNPerM, cut.freeM) - force(110, 0.112), 12);
    expect(() => cutSpring(110, 0.112, 1.1, 0.08)).toThrow(OutOfRange);
  });
});

const SLIDE: CvSlide = {
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

describe("slide", () => {
  it("opens the whole bore at full lift and half of it at half lift (geometry)", () => {
    near(slidePortM2(0.038, 0.038), (Math.PI / 4) * 0.038 ** 2, 1e-12);
    near(slidePortM2(0.038, 0.019), (Math.PI / 8) * 0.038 ** 2, 1e-12);
    expect(slidePortM2(0.038, 0)).toBe(0);
  });
  it("balances depression against spring and weight, and rises with flow", () => {
    const flow = fc.double({ min: 0.004, max: 0.05, noNaN: true });
    fc.assert(
      fc.property(flow, flow, (a, b) => {
        const x = cvBalance(SLIDE, Math.min(a, b), 1.2);
        const y = cvBalance(SLIDE, Math.max(a, b), 1.2);
        expect(y.liftM).toBeGreaterThanOrEqual(x.liftM);
        if (x.liftM > 0 && x.liftM < SLIDE.liftMaxM)
          near(x.depressionPa, holdingPressurePa(SLIDE, x.liftM), 1e-5);
      }),
    );
  });
  it("makes two 3.0 mm holes for one of 2.5 x 2.88 in area and x 0.347 in rise time (common practice, no source)", () => {
    const ratio = slideRiseRatio({ count: 1, holeMm: 2.5 }, { count: 2, holeMm: 3 });
    near(1 / ratio, 2.88, 1e-3);
    near(ratio, 0.347, 1e-3);
    expect(() => slideRiseRatio({ count: 0, holeMm: 2.5 }, { count: 2, holeMm: 3 })).toThrow(Refusal);
  });
  it("rises in the time that the whole equation of motion gives (odex 2.0.4), and in inverse proportion to the holes", () => {
    const holes = (Math.PI / 4) * 0.0025 ** 2;
    const step = { fromM: 0.005, toM: 0.02, depressionPa: 2200 };
    const time = slideRiseS(SLIDE, step, holes, 1.2);
    near(slideRiseS(SLIDE, step, 2.88 * holes, 1.2) / time, 1 / 2.88, 1e-12);
    const motion = (_: number, [x = 0, v = 0]: number[]) => {
      const damping = 0.6 * ((SLIDE.diaphragmM2 * v) / (0.6 * holes)) ** 2 * Math.sign(v);
      return [
        v,
        ((step.depressionPa - holdingPressurePa(SLIDE, x) - damping) * SLIDE.diaphragmM2) / SLIDE.massKg,
      ];
    };
    const solver = new Solver(2);
    solver.absoluteTolerance = 1e-10;
    solver.relativeTolerance = 1e-8;
    solver.maxSteps = 100_000;
    const end = solver.solve(motion, 0, [0.005, 0], time).y;
    near((end[0] ?? 0) - 0.005, 0.015, 0.03);
    expect(() => slideRiseS(SLIDE, { ...step, depressionPa: 1100 }, holes, 1.2)).toThrow(Refusal);
    // A depression that just holds the slide there never lifts it there.
    const just = holdingPressurePa(SLIDE, 0.02);
    expect(() => slideRiseS(SLIDE, { ...step, depressionPa: just }, holes, 1.2)).toThrow(Refusal);
  });
  it("rises evenly where no spring holds it: half of the way in half of the time (statics)", () => {
    const free = { ...SLIDE, rateNPerM: 0 };
    const from = (fromM: number) => slideRiseS(free, { fromM, toM: 0.02, depressionPa: 2200 }, 5e-6, 1.2);
    near(from(0.01) / from(0), 0.5, 1e-9);
  });
});

describe("breathing", () => {
  it("has K 4.0 for an orifice of half the pipe's area (Idelchik, secondary), 0 for none, and 0.25 for Borda-Carnot", () => {
    expect(Math.abs(pipeOrificeLoss(0.5) - 4)).toBeLessThanOrEqual(0.05);
    expect(pipeOrificeLoss(1)).toBe(0);
    expect(() => pipeOrificeLoss(0.01)).toThrow("orifice area over pipe area is 0.01");
    expect(wideningLoss(0.5)).toBe(0.25);
    expect(weldLoss(38, 3)).toBeGreaterThan(weldLoss(38, 1));
  });
  it("adds openings in parallel: a wall hole flows 0.586 of its area (Cd identity)", () => {
    const hole = (Math.PI / 4) * 0.051 ** 2;
    near(effectiveOpeningM2([{ diameterMm: 51, kind: "wall" }]), 0.586 * hole, 1e-3);
    const pair = effectiveOpeningM2([
      { diameterMm: 51, kind: "wall" },
      { diameterMm: 51, kind: "wall" },
    ]);
    near(boxDepressionPa(0.03, pair, 1.2) / boxDepressionPa(0.03, pair / 2, 1.2), 0.25, 1e-12);
    expect(() => boxDepressionPa(0.03, 0, 1.2)).toThrow(OutOfRange);
  });
});

describe("fuels", () => {
  it("has 15.13, 9.00 and 6.47 for isooctane, ethanol and methanol (Heywood, from memory)", () => {
    expect(Math.abs(stoichiometricOfHydrocarbon(18 / 8) - 15.13)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(stoichiometricOfAlcohol(3, 0.5) - 9)).toBeLessThanOrEqual(0.02);
    expect(Math.abs(stoichiometricOfAlcohol(4, 1) - 6.47)).toBeLessThanOrEqual(0.02);
    expect(FUELS.E10.stoichiometric).toBeCloseTo(14.01, 6);
  });
  it("is as dense as named at 15 C and about a tenth of a per cent lighter per kelvin", () => {
    expect(fuelDensityKgM3(745, 288.15)).toBe(745);
    const per = 1 - fuelDensityKgM3(745, 289.15) / 745;
    expect(per).toBeGreaterThan(0.0009);
    expect(per).toBeLessThan(0.0016);
  });
  it("gives mean piston speed 2 S N / 60", () => {
    expect(pistonSpeedMS(0.082, 6000)).toBeCloseTo(16.4, 10);
  });
});

describe("choice under uncertainty", () => {
  it("has the normal distribution's known values (tables)", () => {
    expect(normalBelow(0)).toBeCloseTo(0.5, 6);
    expect(normalBelow(1.6448536)).toBeCloseTo(0.95, 6);
    expect(normalBelow(-1.96)).toBeCloseTo(0.0249979, 6);
  });
  it("agrees with the loss added up numerically, and costs lean three times rich", () => {
    for (const [m, s] of [
      [0.02, 0.03],
      [-0.05, 0.02],
      [0, 0.04],
    ] as const) {
      let sum = 0;
      const h = s / 200;
      for (let e = m - 8 * s; e < m + 8 * s; e += h)
        sum += (e < 0 ? -3 * e : e) * Math.exp(-0.5 * ((e - m) / s) ** 2) * h;
      near(expectedLoss(m, s, 3), sum / (s * Math.sqrt(2 * Math.PI)), 1e-3);
    }
    expect(expectedLoss(-0.02, 0, 3)).toBeCloseTo(3 * expectedLoss(0.02, 0, 3), 12);
  });
  it("lets a tie go to the richer, and finds the risk of running lean", () => {
    expect(
      leastLoss([
        { loss: 1, phiError: -0.1 },
        { loss: 1, phiError: 0.3 },
        { loss: 2, phiError: 1 },
      ]),
    ).toBe(1);
    expect(leastLoss([])).toBe(-1);
    expect(probabilityLeaner(0.92, 0.03, 0.92)).toBeCloseTo(0.5, 6);
    expect(probabilityLeaner(0.88, 0.03, 0.92)).toBeLessThan(0.1);
    expect(probabilityLeaner(0.93, 0, 0.92)).toBe(1);
  });
});

describe("the mean open ring over a stretch of lift", () => {
  // 2.5 mm to a lift of 10 mm, then 0.04 mm thinner for each mm down to 1.7 mm at 30 mm; straight from there on.
  const angle = (2 * Math.atan(0.02) * 180) / Math.PI;
  const cone = {
    straightMm: 2.5,
    straightLiftMm: 10,
    clipAt: 3,
    clipStepMm: 1,
    clips: 5,
    tapers: [{ lengthMm: 20, includedAngleDeg: angle }],
  };
  // By hand: along a cone the mean of d squared is (a2 + ab + b2) / 3.
  it.each([
    [0, 10, 0.400553],
    [10, 30, 1.803798],
    [0, 30, 1.33605],
    [20, 40, 2.751512],
    [12, 14, 0.860063],
    [0, 5, 0.400553],
    [35, 40, 3.03949],
  ])("from %d to %d mm is %d mm2 of a 2.60 mm jet (geometry)", (from, to, ring) => {
    expect(meanRingMm2(cone, 2.6, from, to)).toBeCloseTo(ring, 5);
  });
  it("refuses a stretch of no length and a needle thicker than its jet anywhere on it", () => {
    expect(() => meanRingMm2(cone, 2.6, 5, 5)).toThrow("lift is 0 mm, outside 0.01 to 120 mm.");
    expect(() => meanRingMm2(cone, 2.4, 5, 25)).toThrow(/needle/i);
    expect(() => meanRingMm2(cone, 2.4, 10, 25)).toThrow(/needle/i);
  });
});
