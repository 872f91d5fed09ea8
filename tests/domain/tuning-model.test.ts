import { describe, expect, it } from "vitest";
import { airFromReading, buildAir } from "@/lib/domain/air/weather";
import { airSide, cvSlide } from "@/lib/domain/tuning/airSide";
import { mainCircuitMm2, pilotCircuitMm2 } from "@/lib/domain/tuning/circuits";
import { cutawayRichness } from "@/lib/domain/tuning/cutaway";
import type { FlowAreas } from "@/lib/domain/tuning/flowFigures";
import { fuelCurve, fuelOverSpeed } from "@/lib/domain/tuning/fuelCurve";
import { relativePhi } from "@/lib/domain/tuning/fuels";
import { machineFrom } from "@/lib/domain/tuning/machine";
import {
  ACCEPTED_SIGMA,
  leadingRegion,
  PRIOR_SIGMA,
  REGIONS,
  regionWeights,
  targetLambda,
} from "@/lib/domain/tuning/regions";
import { holdingPressurePa, slidePortM2 } from "@/lib/domain/tuning/slide";
import { acceptedSigma, correctionAt, logSigma, resolve, stationAt } from "@/lib/domain/tuning/station";
import type {
  FuelState,
  ModelCardFacts,
  RegionCorrection,
  SettingValues,
} from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const known = <T>(value: T) => ({ value, how: "read" as const });
/** Bernoulli by hand: flow (m3/s) that a CV slide held at this lift lets through. */
const flowAt = (slide: ReturnType<typeof cvSlide>, liftM: number, density: number, extraPa = 0) =>
  slide.discharge *
  slidePortM2(slide.boreM, liftM + slide.clearanceM) *
  Math.sqrt((2 * (holdingPressurePa(slide, liftM) - extraPa)) / density);
const fitted = (own: SettingValues = settings, air = PLAIN_AIR, fuelTemperatureK = 293.15) => ({
  settings: own,
  needle: machineFrom(DROVER, 1, settings).needle,
  air,
  fuel: "E10" as const,
  fuelTemperatureK,
});
/** An airbox so open that it takes nothing: its depression stays under a pascal. */
const OPEN: SettingValues = { ...settings, airboxOpeningMm: 120, snorkelFitted: 0, headerWeldMm: 0 };
const OPEN_CARD: ModelCardFacts = { ...DROVER, snorkelHoleMm: known(250) };

describe("the air that an engine draws", () => {
  const m = machineFrom(OPEN_CARD, 1, settings);
  const full = airSide(m, fitted(OPEN), "airbox", 1, 5200);
  // 580 cm3 every second turn at 5200 rpm, 80 % of rated speed where filling is best (0.85), a single's peak 2.2 times its mean.
  const peak = ((580e-6 * 5200) / 120) * 0.85 * 2.2;

  it("is its swept volume every second turn, filled at 0.85, with a single's pulse of 2.2 (judgement), read back from the slide", () => {
    expect(full.rpm).toBe(5200);
    expect(full.liftShare).toBeLessThan(1);
    expect(flowAt(cvSlide(m, OPEN), full.liftMm / 1000, PLAIN_AIR.densityKgM3) / peak).toBeCloseTo(1, 3);
    const slow = airSide(m, fitted(OPEN), "airbox", 1, 2600);
    // 40 % of rated speed: 0.4 from the best, filling 1 - 0.5 x 0.16.
    expect(flowAt(cvSlide(m, OPEN), slow.liftMm / 1000, PLAIN_AIR.densityKgM3) / peak).toBeCloseTo(0.46, 3);
  });

  it("pulses less where cylinders share a carburettor: 1.6 for two, 1.2 for three or four (judgement)", () => {
    const flow = (cylinders: number) => {
      const many = machineFrom({ ...OPEN_CARD, cylinders: known(cylinders) }, 1, settings);
      const at = airSide(many, fitted(OPEN), "airbox", 1, 4000);
      return flowAt(cvSlide(many, OPEN), at.liftMm / 1000, PLAIN_AIR.densityKgM3);
    };
    expect(flow(2) / flow(1)).toBeCloseTo(1.6 / 2.2, 3);
    expect(flow(3) / flow(1)).toBeCloseTo(1.2 / 2.2, 3);
    expect(flow(4)).toBeCloseTo(flow(3), 9);
  });

  it("is split between carburettors", () => {
    const two = machineFrom({ ...OPEN_CARD, cylinders: known(2) }, 2, settings);
    const at = airSide(two, fitted(OPEN), "airbox", 1, 5200);
    expect(flowAt(cvSlide(two, OPEN), at.liftMm / 1000, PLAIN_AIR.densityKgM3) / (peak / 2)).toBeCloseTo(
      1,
      3,
    );
  });

  // A butterfly at angle a from shut 8 degrees leaves 1 - cos(a) / cos(8) of its bore (geometry of a plate).
  it("is held back by the butterfly in series with the engine: at half grip 49 degrees, 34 % of the bore", () => {
    const bore = (Math.PI / 4) * 0.037 ** 2;
    const radians = Math.PI / 180;
    const plate = bore * (0.008 + 0.992 * (1 - Math.cos(49 * radians) / Math.cos(8 * radians)));
    const passes = (area: number) => area / Math.hypot(area, peak / 100);
    const half = airSide(m, fitted(OPEN), "airbox", 0.5, 5200);
    const flow = flowAt(cvSlide(m, OPEN), half.liftMm / 1000, PLAIN_AIR.densityKgM3);
    expect(flow / (peak * (passes(plate) / passes(bore)))).toBeCloseTo(1, 3);
  });

  it("is ridden at 35 % of rated speed shut and 95 % at full grip, unless told (judgement)", () => {
    expect(airSide(m, fitted(OPEN), "airbox", 0).rpm).toBeCloseTo(0.35 * 6500, 6);
    expect(airSide(m, fitted(OPEN), "airbox", 1).rpm).toBeCloseTo(0.95 * 6500, 6);
    expect(airSide(m, fitted(OPEN), "airbox", 0.5).rpm).toBeCloseTo(0.65 * 6500, 6);
  });

  it("falls with the airbox's depression, which lifts the slide where the bowl is vented outside", () => {
    const shut: SettingValues = { ...settings, airboxOpeningMm: 0, snorkelFitted: 1, headerWeldMm: 0 };
    // One re-entrant snorkel of 36 mm: A / sqrt(1.78); its depression by Bernoulli on the mean flow.
    const opening = ((Math.PI / 4) * 0.036 ** 2) / Math.sqrt(1.78);
    const box = 0.5 * PLAIN_AIR.densityKgM3 * (peak / 2.2 / opening) ** 2;
    const inside = airSide(m, fitted(shut), "airbox", 1, 5200);
    const outside = airSide(m, fitted(shut), "atmosphere", 1, 5200);
    const slide = cvSlide(m, shut);
    const thin = 1 - box / PLAIN_AIR.pressurePa;
    expect(flowAt(slide, inside.liftMm / 1000, PLAIN_AIR.densityKgM3) / (peak * thin)).toBeCloseTo(1, 3);
    expect(flowAt(slide, outside.liftMm / 1000, PLAIN_AIR.densityKgM3, box) / (peak * thin)).toBeCloseTo(
      1,
      3,
    );
    expect(outside.liftMm).toBeGreaterThan(inside.liftMm);
  });

  it("draws through the hole that the snorkel leaves, and through what is cut besides", () => {
    const lift = (own: Partial<SettingValues>) =>
      airSide(
        machineFrom(DROVER, 1, settings),
        fitted({ ...settings, headerWeldMm: 0, ...own }),
        "atmosphere",
        1,
        5200,
      ).liftMm;
    // The more open, the less the airbox's depression helps the slide up.
    expect(lift({ snorkelFitted: 0 })).toBeLessThan(lift({ snorkelFitted: 1 }));
    expect(lift({ airboxOpeningMm: 30 })).toBeLessThan(lift({ airboxOpeningMm: 0 }));
    const { airboxOpeningMm: _, ...unsaid } = settings;
    expect(
      airSide(machineFrom(DROVER, 1, settings), fitted({ ...unsaid, headerWeldMm: 0 }), "atmosphere", 1, 5200)
        .liftMm,
    ).toBe(lift({ airboxOpeningMm: 0 }));
  });

  // Idelchik's orifice for 3 mm in a 36 mm header: f (1 - 6/36)^2; a quarter of the pressure loss at 0.45 kg/m3 and 2.2 times the mean speed (judgement).
  it("loses about a fiftieth to 3 mm of weld in a 36 mm header, and nothing to none", () => {
    const f = (1 - 6 / 36) ** 2;
    const loss = ((1 - f + Math.SQRT1_2 * Math.sqrt(1 - f)) / f) ** 2;
    const speed = ((peak / 2.2) * PLAIN_AIR.densityKgM3 * 2.2) / (0.45 * (Math.PI / 4) * 0.036 ** 2);
    const lost = (0.25 * 0.45 * speed ** 2 * loss) / PLAIN_AIR.pressurePa;
    expect(lost).toBeGreaterThan(0.005);
    expect(lost).toBeLessThan(0.05);
    const flow = (weld: number | undefined) => {
      const { headerWeldMm: _, ...bare } = OPEN;
      const own: SettingValues = weld === undefined ? bare : { ...bare, headerWeldMm: weld };
      return flowAt(
        cvSlide(m, own),
        airSide(m, fitted(own), "airbox", 1, 5200).liftMm / 1000,
        PLAIN_AIR.densityKgM3,
      );
    };
    expect(flow(3) / flow(0)).toBeCloseTo(1 - lost, 3);
    expect(flow(undefined)).toBe(flow(0));
    // Never more than a tenth, however much is left standing.
    expect(flow(10) / flow(0)).toBeCloseTo(0.9, 3);
  });
});

describe("a silencer and a filter of known flow (Bernoulli, by hand)", () => {
  const peak = ((580e-6 * 5200) / 120) * 0.85 * 2.2;
  const density = PLAIN_AIR.densityKgM3;
  const flow = (m: ReturnType<typeof machineFrom>, flows: FlowAreas) =>
    flowAt(
      cvSlide(m, OPEN),
      airSide(m, { ...fitted(OPEN), flows }, "airbox", 1, 5200).liftMm / 1000,
      density,
    );
  // Half of the pressure loss of the mass flow as gas of 0.45 kg/m3 is lost of the charge (judgement), a tenth at most.
  const lost = (areaM2: number) =>
    (0.5 * ((peak / 2.2) * density) ** 2) / (2 * 0.45 * areaM2 ** 2) / PLAIN_AIR.pressurePa;
  it("a silencer takes its share of the charge, of all cylinders together", () => {
    const m = machineFrom(OPEN_CARD, 1, settings);
    expect(lost(4e-4)).toBeGreaterThan(0.01);
    expect(flow(m, { silencerM2: 4e-4 }) / flow(m, {})).toBeCloseTo(1 - lost(4e-4), 3);
    expect(flow(m, { silencerM2: 1e-4 }) / flow(m, {})).toBeCloseTo(0.9, 3);
    const two = machineFrom({ ...OPEN_CARD, cylinders: known(2) }, 2, settings);
    expect(flow(two, { silencerM2: 4e-4 }) / flow(two, {})).toBeCloseTo(1 - lost(4e-4), 3);
  });
  it("a filter is passed in series with the airbox's openings", () => {
    const m = machineFrom(OPEN_CARD, 1, settings);
    const areaM2 = 1e-3;
    const drop = (0.5 * density * (peak / 2.2 / areaM2) ** 2) / PLAIN_AIR.pressurePa;
    expect(drop).toBeGreaterThan(0.002);
    expect(flow(m, { filterM2: areaM2 }) / flow(m, {})).toBeCloseTo(1 - drop, 3);
  });
});

describe("the fuel that the air draws", () => {
  const mechanical: ModelCardFacts = { ...OPEN_CARD, carburettorType: known("mechanical" as const) };
  const state = (card: ModelCardFacts, own: SettingValues, more: Partial<FuelState> = {}): FuelState => ({
    card,
    carburettors: 1,
    settings: own,
    reference: { settings: own, air: PLAIN_AIR },
    ...more,
  });
  const at = (s: FuelState, air = PLAIN_AIR, throttle = 1) => {
    const { points } = fuelCurve(s, air, 50);
    const found = points.reduce((a, b) =>
      Math.abs(b.throttle - throttle) < Math.abs(a.throttle - throttle) ? b : a,
    );
    return found;
  };

  // By hand for a 37 mm slide fully open at 6175 rpm: 10.3 l/s x 0.85 filling, ... the lip's 5 mm take 37 Pa of the signal.
  it("follows the root of signal and density over dry air: a slide fully open, by Bernoulli", () => {
    const m = machineFrom(mechanical, 1, settings);
    const side = airSide(m, fitted(OPEN), "airbox", 1, 5200);
    const flow = ((580e-6 * 5200) / 120) * 0.85 * 2.2;
    const signal = 0.5 * PLAIN_AIR.densityKgM3 * (flow / (0.85 * (Math.PI / 4) * 0.037 ** 2)) ** 2;
    // E10 at 20 C: 750 kg/m3 less 0.6 % (ASTM D1250).
    const fuel = 750 * 0.9939;
    const raised = signal - fuel * 9.80665 * 0.005;
    const perArea = (14.01 * Math.sqrt(fuel * raised)) / (PLAIN_AIR.dryDensityKgM3 * flow);
    expect(side.liftMm).toBeCloseTo(37, 9);
    expect(side.perArea / perArea).toBeCloseTo(1, 3);
    const perPilot = (14.01 * Math.sqrt(fuel * PLAIN_AIR.densityKgM3)) / PLAIN_AIR.dryDensityKgM3;
    expect(side.perPilotArea / perPilot).toBeCloseTo(1, 3);
    expect(airSide(m, fitted(OPEN), "airbox", 0.5, 5200).liftMm).toBeCloseTo(18.5, 9);
  });

  it("is held back by a mechanical slide in series with the engine, open by 0.6 mm when shut (judgement)", () => {
    const m = machineFrom(mechanical, 1, settings);
    const peak = ((580e-6 * 5200) / 120) * 0.85 * 2.2;
    const bore = (Math.PI / 4) * 0.037 ** 2;
    const passes = (area: number) => area / Math.hypot(area, peak / 100);
    for (const throttle of [0.1, 0.3]) {
      const port = slidePortM2(0.037, throttle * 0.037 + 0.0006);
      const flow = peak * (passes(port) / passes(bore));
      const signal = 0.5 * PLAIN_AIR.densityKgM3 * (flow / (0.85 * port)) ** 2;
      const fuel = 750 * 0.9939;
      const raised = Math.max(0.2 * signal, signal - fuel * 9.80665 * 0.005);
      const perArea = (14.01 * Math.sqrt(fuel * raised)) / (PLAIN_AIR.dryDensityKgM3 * flow);
      expect(airSide(m, fitted(OPEN), "airbox", throttle, 5200).perArea / perArea).toBeCloseTo(1, 2);
    }
  });

  it("meets its target everywhere with the reference settings in their own air", () => {
    for (const card of [DROVER, mechanical])
      for (const p of fuelCurve(state(card, settings), PLAIN_AIR, 20).points)
        expect(p.lambda / targetLambda(p.throttle)).toBeCloseTo(1, 12);
  });

  // The square-root law with moist density in the signal and dry density for the oxygen: the part of it that a fixed slide leaves.
  it("gets richer in damp, hot or thin air by the square-root law, where a fixed slide is fully open", () => {
    const s = state(mechanical, OPEN);
    const airs = [
      airFromReading({ stationPa: 101_325, temperatureC: 35, humidity: 0.9 }),
      buildAir(79_500, 283.15, 0.2, false, 0.003, []),
      airFromReading({ stationPa: 101_325, temperatureC: 0, humidity: 0.5 }),
    ];
    for (const air of airs) {
      const law = relativePhi(
        { fuel: "E10", fuelTemperatureK: air.temperatureK, ...air },
        { fuel: "E10", fuelTemperatureK: PLAIN_AIR.temperatureK, ...PLAIN_AIR },
      );
      expect(at(s).lambda / at(s, air).lambda / law).toBeCloseTo(1, 2);
    }
  });

  // A spring-loaded slide keeps its depression: fuel goes as the root of fuel density alone, air as dry density times volume.
  it("gets richer in damp air by the oxygen alone, where a slide keeps its depression", () => {
    const wet = airFromReading({ stationPa: 101_325, temperatureC: 20, humidity: 1 });
    const dry = airFromReading({ stationPa: 101_325, temperatureC: 20, humidity: 0 });
    const s = state(OPEN_CARD, OPEN, { reference: { settings: OPEN, air: dry } });
    const richer = at(s, dry).lambda / at(s, wet).lambda;
    expect(richer / (dry.dryDensityKgM3 / wet.dryDensityKgM3)).toBeCloseTo(1, 2);
    expect(richer).toBeGreaterThan(1.02);
  });

  it("is metered alike by a needle one groove of 1 mm higher and a seat 1 mm higher", () => {
    const base: SettingValues = { ...settings, needleSeatMm: 0.5 };
    const with_ = (own: Partial<SettingValues>) =>
      fuelCurve(
        state(DROVER, { ...base, ...own }, { reference: { settings: base, air: PLAIN_AIR } }),
        PLAIN_AIR,
        30,
      );
    const groove = with_({ clipPosition: 4 }).points;
    const seat = with_({ needleSeatMm: 1.5 }).points;
    groove.forEach((p, i) => {
      expect(seat[i]?.lambda).toBeCloseTo(p.lambda, 12);
    });
    const higher = with_({ clipPosition: 4 });
    expect(higher.points[15]?.lambda ?? 9).toBeLessThan(with_({}).points[15]?.lambda ?? 0);
  });

  it("grows with a stronger slide spring and falls with a heavier flow of air past a weaker one", () => {
    const half = (rate: number) => {
      const other = { ...DROVER, springRateNPerM: known(rate) };
      const m = machineFrom(other, 1, settings);
      return airSide(m, fitted(), "atmosphere", 0.5);
    };
    expect(half(130).liftMm).toBeLessThan(half(110).liftMm);
    expect(half(130).perArea).toBeGreaterThan(half(110).perArea);
  });

  // Two equal orifices in series pass 1 / sqrt 2 of one; the screw's opens with its turns (judgement): 1.75 for 1.5 turns is 16.7 % more.
  it("passes a pilot circuit of jet and screw in series", () => {
    const m = machineFrom(DROVER, 1, settings);
    const jet = (Math.PI / 4) * 0.45 ** 2;
    expect(pilotCircuitMm2(m, { pilotJet: 45, mixtureScrewTurns: 1.5 }, 1.5)).toBeCloseTo(
      jet / Math.SQRT2,
      9,
    );
    const out = 1 / Math.hypot(1 / jet, 1 / (jet * (1.75 / 1.5)));
    expect(pilotCircuitMm2(m, { pilotJet: 45, mixtureScrewTurns: 1.75 }, 1.5)).toBeCloseTo(out, 9);
    expect(pilotCircuitMm2(m, { pilotJet: 45 }, 1.5)).toBeCloseTo(jet / Math.SQRT2, 9);
    expect(pilotCircuitMm2(m, {}, 1.5)).toBeCloseTo(jet / Math.SQRT2, 9);
    // Shut right in, a twentieth of a turn still weeps.
    const shut = 1 / Math.hypot(1 / jet, 1 / (jet * (0.05 / 1.5)));
    expect(pilotCircuitMm2(m, { mixtureScrewTurns: 0 }, 1.5)).toBeCloseTo(shut, 9);
    expect(pilotCircuitMm2(m, { mixtureScrewTurns: 0.5 }, 0)).toBeCloseTo(
      1 / Math.hypot(1 / jet, 1 / (10 * jet)),
      9,
    );
  });

  it("passes a main circuit of ring and jet in series, the ring by lift, clip and seat", () => {
    const m = machineFrom(DROVER, 1, settings);
    const needle = m.needle;
    const ring = (d: number) => (Math.PI / 4) * (2.6 ** 2 - d ** 2);
    const series = (d: number, jet: number) =>
      1 / Math.hypot(1 / ring(d), 1 / ((Math.PI / 4) * (jet / 100) ** 2));
    const thin = (beyond: number) => 2.5 - 2 * beyond * Math.tan(((1.79 / 2) * Math.PI) / 180);
    const area = (own: SettingValues, lift: number, from: SettingValues = {}) =>
      mainCircuitMm2(m, { settings: own, needle }, lift, from);
    expect(area({ mainJet: 140, clipPosition: 3 }, 20)).toBeCloseTo(series(thin(14), 140), 9);
    expect(area({ mainJet: 150, clipPosition: 4 }, 20)).toBeCloseTo(series(thin(15), 150), 9);
    expect(area({ mainJet: 140, clipPosition: 3, needleSeatMm: 1.5 }, 20, { needleSeatMm: 1 })).toBeCloseTo(
      series(thin(14.5), 140),
      9,
    );
    // A seat that one side does not know makes no difference.
    expect(area({}, 20, { needleSeatMm: 1 })).toBeCloseTo(series(thin(14), 140), 9);
    expect(area({ needleSeatMm: 1.5 }, 20)).toBeCloseTo(series(thin(14), 140), 9);
    expect(() => area({ clipPosition: 6 }, 20)).toThrow("5 clip grooves");
  });

  // Common practice: a slide's cutaway acts from an eighth to a quarter; 0.5 mm higher is leaner there. Size of the effect: judgement.
  it("is leaner under a slide with more cutaway near a fifth of its lift, and unmoved from 36 % on", () => {
    expect(cutawayRichness(0.18, 3, 2.5)).toBeCloseTo(-0.03, 12);
    expect(cutawayRichness(0.18, 2, 2.5)).toBeCloseTo(0.03, 12);
    expect(cutawayRichness(0.09, 3, 2.5)).toBeCloseTo(-0.015, 12);
    expect(cutawayRichness(0.27, 3, 2.5)).toBeCloseTo(-0.015, 12);
    for (const lift of [0, 0.36, 0.5, 1]) expect(Math.abs(cutawayRichness(lift, 3, 2.5))).toBe(0);
    const cut = (own: Partial<SettingValues>, was: Partial<SettingValues>, card = mechanical) =>
      at(
        state(
          card,
          { ...settings, ...own },
          { reference: { settings: { ...settings, ...was }, air: PLAIN_AIR } },
        ),
        PLAIN_AIR,
        0.18,
      ).lambda;
    const same = cut({ slideCutawayMm: 2.5 }, { slideCutawayMm: 2.5 });
    expect(cut({ slideCutawayMm: 3 }, { slideCutawayMm: 2.5 })).toBeGreaterThan(same * 1.02);
    expect(cut({ slideCutawayMm: 3 }, {})).toBeCloseTo(same, 9);
    expect(cut({ slideCutawayMm: 3 }, { slideCutawayMm: 2.5 }, DROVER)).toBeCloseTo(same, 2);
  });
});

describe("what was learned, on the curve", () => {
  const learned = (
    value: number,
    sigma: number,
    more: Partial<RegionCorrection> = {},
  ): readonly RegionCorrection[] => REGIONS.map((region) => ({ region, value, sigma, samples: 1, ...more }));
  const state: FuelState = {
    card: DROVER,
    carburettors: 1,
    settings,
    reference: { settings, air: PLAIN_AIR },
  };
  it("shifts lambda by what it says, all regions alike at every opening", () => {
    const richer = fuelCurve({ ...state, calibration: learned(0.05, 0.02) }, PLAIN_AIR, 20).points;
    for (const p of richer) expect(p.lambda).toBeCloseTo(targetLambda(p.throttle) * Math.exp(-0.05), 9);
    const main = learned(0, 0.02).map((c) => (c.region === "main" ? { ...c, value: -0.1 } : c));
    const r = resolve({ ...state, calibration: main }, PLAIN_AIR);
    for (const u of [0.02, 0.3, 0.7, 1]) {
      const station = stationAt(r, "atmosphere", u);
      expect(correctionAt(r, station.weights)).toBeCloseTo(
        -0.1 * regionWeights(station.now.liftShare).main,
        12,
      );
    }
  });

  // Independent errors add up as squares, fully shared ones as sums (variance of a weighted sum).
  it("has a band of one and a half sigma: squares of independent regions, sums of shared ones, half of the air's", () => {
    const air = 2 * (0.5 * PLAIN_AIR.sigma) ** 2;
    const weights = (u: number) =>
      REGIONS.map((region) => stationAt(resolve(state, PLAIN_AIR), "atmosphere", u).weights[region]);
    const apart = fuelCurve({ ...state, calibration: learned(0, 0.04) }, PLAIN_AIR, 15).points;
    for (const p of apart) {
      const alone = Math.sqrt(weights(p.throttle).reduce((sum, w) => sum + (0.04 * w) ** 2, air));
      expect(Math.log(p.high / p.low) / 3).toBeCloseTo(alone, 9);
      expect(Math.log(p.high / p.lambda)).toBeCloseTo(1.5 * alone, 9);
    }
    const shared = learned(0, 0.04, { covariance: REGIONS.map(() => 0.04 ** 2) });
    for (const p of fuelCurve({ ...state, calibration: shared }, PLAIN_AIR, 15).points)
      expect(Math.log(p.high / p.low) / 3).toBeCloseTo(Math.sqrt(0.04 ** 2 + air), 9);
  });

  it("is widened by three tenths of what the model says has changed (judgement), and by what is assumed", () => {
    const r = resolve({ ...state, calibration: learned(0, 0) }, PLAIN_AIR);
    const station = stationAt(r, "atmosphere", 1);
    const air = 2 * (0.5 * PLAIN_AIR.sigma) ** 2;
    expect(logSigma(r, station, 0)).toBeCloseTo(Math.sqrt(air), 12);
    expect(logSigma(r, station, -0.2)).toBeCloseTo(Math.sqrt(0.06 ** 2 + air), 12);
    const { fuel: _, ...rest } = DROVER;
    const assumed = resolve({ ...state, card: rest, calibration: learned(0, 0) }, PLAIN_AIR);
    // An assumed fuel adds 0.02 per unit of change, and a fiftieth of that without any.
    expect(logSigma(assumed, stationAt(assumed, "atmosphere", 1), 0.5)).toBeCloseTo(
      Math.sqrt(0.15 ** 2 + 0.01 ** 2 + 0.0004 ** 2 + air),
      9,
    );
  });

  it("is the accepted setup's where nothing was taught: prior and acceptance together (product of two normals)", () => {
    for (const region of REGIONS)
      expect(acceptedSigma(region) ** -2).toBeCloseTo(PRIOR_SIGMA[region] ** -2 + ACCEPTED_SIGMA ** -2, 6);
    expect(resolve(state, PLAIN_AIR).error.main).toMatchObject({
      value: 0,
      sigma: acceptedSigma("main"),
      measured: false,
    });
    const told = resolve({ ...state, calibration: learned(0.01, 0.02, { measured: true }) }, PLAIN_AIR);
    expect(told.error.taper).toMatchObject({ value: 0.01, sigma: 0.02, measured: true });
  });

  it("stands between both cases where nobody knows the vents, and is wider for it", () => {
    const open: SettingValues = { ...settings, airboxOpeningMm: 47 };
    const curve = (ventedTo: "atmosphere" | "airbox" | "unknown") =>
      fuelCurve({ ...state, settings: open, card: { ...DROVER, ventedTo: known(ventedTo) } }, PLAIN_AIR, 10);
    const [out, box, both] = [curve("atmosphere"), curve("airbox"), curve("unknown")];
    expect(both.ventCases.map((c) => c.ventedTo)).toEqual(["atmosphere", "airbox"]);
    expect(out.ventCases).toEqual([]);
    both.points.forEach((p, i) => {
      const [a, b] = [out.points[i]?.lambda ?? 0, box.points[i]?.lambda ?? 0];
      expect(p.lambda).toBeCloseTo(Math.sqrt(a * b), 9);
      expect([both.ventCases[0]?.lambda[i], both.ventCases[1]?.lambda[i]]).toEqual([
        expect.closeTo(a, 9),
        expect.closeTo(b, 9),
      ]);
      const apart = Math.abs(Math.log(a / b)) / 2;
      expect(Math.log(p.high / p.low) / 3).toBeGreaterThanOrEqual(apart - 1e-9);
      expect(p.liftMm).toBeCloseTo(((out.points[i]?.liftMm ?? 0) + (box.points[i]?.liftMm ?? 0)) / 2, 9);
    });
  });

  it("runs from nearly shut to full, or over speed from 35 to 105 % of rated, in the points asked for", () => {
    const curve = fuelCurve(state, PLAIN_AIR, 3);
    expect(curve.points.map((p) => Number(p.throttle.toFixed(9)))).toEqual([0.02, 0.51, 1]);
    expect(fuelCurve(state, PLAIN_AIR, 4.9).points).toHaveLength(4);
    const speed = fuelOverSpeed(state, PLAIN_AIR, 3).points;
    expect(speed.map((p) => Math.round(p.rpm))).toEqual([2275, 4550, 6825]);
    expect(speed.every((p) => p.throttle === 1)).toBe(true);
    expect(fuelOverSpeed(state, PLAIN_AIR, 4.9).points).toHaveLength(4);
    expect(() => fuelCurve(state, PLAIN_AIR, 1)).toThrow("points is 1, outside 2 to 400.");
    expect(() => fuelOverSpeed(state, PLAIN_AIR, 401)).toThrow("points is 401");
    expect(fuelCurve(state, PLAIN_AIR).points).toHaveLength(50);
    expect(fuelOverSpeed(state, PLAIN_AIR).points).toHaveLength(30);
  });

  it("says what it stands on: the air against the reference's, and that the reference was right", () => {
    const hot = airFromReading({ stationPa: 95_000, temperatureC: 35, humidity: 0.5 });
    const share = ((100 * hot.dryDensityKgM3) / PLAIN_AIR.dryDensityKgM3).toFixed(1);
    const [air] = fuelCurve(state, hot, 5).because;
    expect(air).toMatchObject({
      fact: `Air carries ${share} % of the oxygen of the reference air`,
      effect: "richer at the same settings",
    });
    expect(fuelCurve(state, PLAIN_AIR, 5).because[0]?.effect).toBe("leaner or the same at the same settings");
    expect(fuelCurve(state, PLAIN_AIR, 5).because).toHaveLength(3);
  });
});

describe("regions of the throttle", () => {
  it("decide in shares that add up to one at every lift, at the table's places as the table says", () => {
    for (let lift = 0; lift <= 1; lift += 0.01) {
      const w = regionWeights(lift);
      expect(REGIONS.reduce((sum, region) => sum + w[region], 0)).toBeCloseTo(1, 12);
    }
    expect(regionWeights(0.5)).toEqual({ pilot: 0.07, straight: 0.13, taper: 0.6, main: 0.2 });
    expect(regionWeights(0.6).main).toBeCloseTo(0.33, 12);
    expect(regionWeights(-1)).toEqual(regionWeights(0));
    expect(regionWeights(2)).toEqual(regionWeights(1));
    expect([0, 0.2, 0.5, 1].map((lift) => leadingRegion(regionWeights(lift)))).toEqual([
      "pilot",
      "straight",
      "taper",
      "main",
    ]);
    expect(leadingRegion({ pilot: 0.25, straight: 0.25, taper: 0.25, main: 0.25 })).toBe("pilot");
  });

  // Typical targets: full load 0.86 to 0.90, cruise 0.95 to 1.05, idle 0.90 to 1.00 (common practice, from memory).
  it("aim at 0.95 at idle, near 1 at cruise and 0.88 at full load, straight between", () => {
    expect([0, 0.1, 0.25, 0.45, 0.65, 0.8, 1].map(targetLambda)).toEqual([
      0.95, 0.97, 0.99, 0.97, 0.93, 0.89, 0.88,
    ]);
    expect(targetLambda(0.9)).toBeCloseTo(0.885, 12);
    expect([targetLambda(-1), targetLambda(2)]).toEqual([0.95, 0.88]);
  });

  it("are unsure before any ride by 10, 10, 8 and 5 %, and an accepted setup by 5 % (judgement)", () => {
    expect(REGIONS.map((region) => Number(PRIOR_SIGMA[region].toFixed(2)))).toEqual([0.1, 0.1, 0.08, 0.05]);
    expect(ACCEPTED_SIGMA).toBeCloseTo(0.05, 3);
  });
});
