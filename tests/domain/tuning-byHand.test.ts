import { describe, expect, it } from "vitest";
import { airSide, cvSlide } from "@/lib/domain/tuning/airSide";
import type { FlowAreas } from "@/lib/domain/tuning/flowFigures";
import { fuelDensityKgM3 } from "@/lib/domain/tuning/fuels";
import { machineFrom } from "@/lib/domain/tuning/machine";
import { raisedMm } from "@/lib/domain/tuning/needleHeight";
import { leadingRegion, regionWeights } from "@/lib/domain/tuning/regions";
import { holdingPressurePa, slidePortM2 } from "@/lib/domain/tuning/slide";
import type { ModelCardFacts, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });
const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
/** An airbox so open that it takes nothing: its depression stays under a pascal. */
const OPEN: SettingValues = { ...settings, airboxOpeningMm: 120, snorkelFitted: 0, headerWeldMm: 0 };
const OPEN_CARD: ModelCardFacts = { ...DROVER, snorkelHoleMm: known(250) };
const MECHANICAL: ModelCardFacts = { ...OPEN_CARD, carburettorType: known("mechanical" as const) };
const fitted = (own: SettingValues, flows?: FlowAreas) => ({
  settings: own,
  needle: machineFrom(DROVER, 1, settings).needle,
  air: PLAIN_AIR,
  fuel: "E10" as const,
  fuelTemperatureK: 293.15,
  flows,
});
/** E10 at 20 C, kg/m3 (750 at 15 C, ASTM D1250). */
const FUEL = fuelDensityKgM3(750, 293.15);
const LIP_PA = FUEL * 9.80665 * 0.005;
/** Peak flow, m3/s, of one 580 cc cylinder at a speed in rpm: swept every second turn, filled at 0.85, pulsing 2.2 times its mean. */
const peakAt = (rpm: number) =>
  ((580e-6 * rpm) / 120) * 0.85 * Math.max(0.5, 1 - 0.5 * (rpm / 6500 - 0.8) ** 2) * 2.2;
/** Bernoulli by hand: flow (m3/s) that a CV slide held at this lift lets through. */
const flowAt = (slide: ReturnType<typeof cvSlide>, liftM: number) =>
  slide.discharge *
  slidePortM2(slide.boreM, liftM + slide.clearanceM) *
  Math.sqrt((2 * holdingPressurePa(slide, liftM)) / PLAIN_AIR.densityKgM3);

describe("the air of an engine, worked by hand", () => {
  const flow = (m: ReturnType<typeof machineFrom>, flows?: FlowAreas) =>
    flowAt(cvSlide(m, OPEN), airSide(m, fitted(OPEN, flows), "airbox", 1, 5200).liftMm / 1000);

  it("pulses as that of two cylinders where three share two carburettors (judgement)", () => {
    const of = (cylinders: number, carburettors: number) =>
      flow(machineFrom({ ...OPEN_CARD, cylinders: known(cylinders) }, carburettors, settings));
    expect(of(3, 2) / of(2, 2)).toBeCloseTo(1.6 / 2.2, 3);
  });

  it("passes a filter for all carburettors together: half the flow in each of two loses as much as one", () => {
    const areaM2 = 5e-4;
    const drop = (0.5 * PLAIN_AIR.densityKgM3 * (peakAt(5200) / 2.2 / areaM2) ** 2) / PLAIN_AIR.pressurePa;
    expect(drop).toBeGreaterThan(0.01);
    const two = machineFrom({ ...OPEN_CARD, cylinders: known(2) }, 2, settings);
    expect(flow(two, { filterM2: areaM2 }) / flow(two)).toBeCloseTo(1 - drop, 3);
  });

  // Idelchik's orifice for 3 mm in a 36 mm header; a quarter of the pressure loss at 0.45 kg/m3 and 2.2 times the mean speed
  // (judgement). Half the flow has a quarter of the loss.
  it("loses a quarter to a weld in each of two headers of what it loses in one", () => {
    const f = (1 - 6 / 36) ** 2;
    const loss = ((1 - f + Math.SQRT1_2 * Math.sqrt(1 - f)) / f) ** 2;
    const speed = (peakAt(5200) * PLAIN_AIR.densityKgM3) / (0.45 * (Math.PI / 4) * 0.036 ** 2);
    const lost = (0.25 * 0.45 * (speed / 2) ** 2 * loss) / PLAIN_AIR.pressurePa;
    expect(lost).toBeGreaterThan(0.002);
    const two = machineFrom({ ...OPEN_CARD, cylinders: known(2) }, 1, settings);
    const welded = { ...OPEN, headerWeldMm: 3 };
    const lift = airSide(two, fitted(welded), "airbox", 1, 5200).liftMm / 1000;
    expect(flowAt(cvSlide(two, welded), lift) / flow(two)).toBeCloseTo(1 - lost, 4);
  });

  it("passes a mechanical slide that is little open as its port and the engine in series, 0.6 mm open when shut", () => {
    const m = machineFrom(MECHANICAL, 1, settings);
    const [rpm, throttle] = [600, 0.12];
    const passes = (area: number) => area / Math.hypot(area, peakAt(rpm) / 100);
    const port = slidePortM2(0.037, throttle * 0.037 + 0.0006);
    const flow = (peakAt(rpm) * passes(port)) / passes((Math.PI / 4) * 0.037 ** 2);
    const signal = 0.5 * PLAIN_AIR.densityKgM3 * (flow / (0.85 * port)) ** 2;
    const perArea = (14.01 * Math.sqrt(FUEL * (signal - LIP_PA))) / (PLAIN_AIR.dryDensityKgM3 * flow);
    expect(airSide(m, fitted(OPEN), "airbox", throttle, rpm).perArea / perArea).toBeCloseTo(1, 4);
  });
});

describe("the level in the bowl, worked by hand", () => {
  const at = (was: number | undefined, now: number | undefined, throttle = 1, rpm = 5200) => {
    const { floatHeightMm: _, ...rest } = settings;
    const from = was === undefined ? rest : { ...rest, floatHeightMm: was };
    const own = now === undefined ? OPEN : { ...OPEN, floatHeightMm: now };
    return airSide(machineFrom(MECHANICAL, 1, from), fitted(own), "airbox", throttle, rpm);
  };

  it("takes 2 mm of fuel from both signals for 2 mm more float height, and gives it back for 2 mm less", () => {
    const lower = FUEL * 9.80665 * 0.002;
    const signal = 0.5 * PLAIN_AIR.densityKgM3 * (peakAt(5200) / (0.85 * (Math.PI / 4) * 0.037 ** 2)) ** 2;
    for (const sign of [1, -1]) {
      const [was, now] = [at(14, 14), at(14, 14 + 2 * sign)];
      // The pilot circuit's signal is 900 Pa (judgement).
      expect(now.perPilotArea / was.perPilotArea).toBeCloseTo(Math.sqrt(1 - (sign * lower) / 900), 9);
      expect(now.perArea / was.perArea).toBeCloseTo(Math.sqrt(1 - (sign * lower) / (signal - LIP_PA)), 4);
    }
  });

  it("says nothing where the float height of one side is not known", () => {
    const plain = at(undefined, undefined);
    for (const other of [at(14, undefined), at(undefined, 14)]) {
      expect(other.perArea).toBe(plain.perArea);
      expect(other.perPilotArea).toBe(plain.perPilotArea);
    }
  });

  it("leaves a fifth of a signal that is too weak to lift the fuel, where the model ends (judgement)", () => {
    const flow = peakAt(600);
    const signal = 0.5 * PLAIN_AIR.densityKgM3 * (flow / (0.85 * (Math.PI / 4) * 0.037 ** 2)) ** 2;
    expect(signal).toBeLessThan(LIP_PA);
    const perArea = (14.01 * Math.sqrt(FUEL * 0.2 * signal)) / (PLAIN_AIR.dryDensityKgM3 * flow);
    expect(at(14, 14, 1, 600).perArea / perArea).toBeCloseTo(1, 4);
  });
});

describe("the spring that a sheet names, where the one before it was described", () => {
  // Rate times coils stays, and coils go as free length (EN 13906-1): 150 N/m at 100 mm are 166.7 at 90 mm.
  it("is cut from that one, and from a new one where it is longer", () => {
    const spring = { freeMm: 100, coils: null, rateNPerM: 150, exchanged: false };
    const was = { ...settings, springLengthMm: 100 };
    const m = machineFrom(DROVER, 1, was, undefined, { springs: { reference: spring } });
    const rate = (springLengthMm: number) => cvSlide(m, { ...was, springLengthMm }).rateNPerM;
    expect(rate(100)).toBe(150);
    expect(rate(90)).toBeCloseTo((150 * 100) / 90, 9);
    expect(rate(110)).toBeCloseTo((110 * 118) / 110, 9);
  });
});

describe("a needle's height over where its shape was described", () => {
  const needle = machineFrom(DROVER, 1, settings).needle;
  it("is its clip's grooves, its seat, its shims and what is known as a difference, added up", () => {
    const from = { needleSeatMm: 1, needleShimBelowMm: 0.25 };
    const own = { clipPosition: 4, needleSeatMm: 1.5, needleShimBelowMm: 0.75 };
    expect(raisedMm({ settings: own, needle, raisedMm: 0.3 }, from)).toBeCloseTo(1 + 0.5 + 0.5 + 0.3, 12);
    expect(raisedMm({ settings: { ...own, needleShimBelowMm: 0 }, needle }, from)).toBeCloseTo(1.25, 12);
  });
});

describe("the weights of the regions", () => {
  // Shares by lift: judgement.
  it("are those of the table at its own places", () => {
    expect(regionWeights(0)).toEqual({ pilot: 0.95, straight: 0.05, taper: 0, main: 0 });
    expect(regionWeights(0.06)).toEqual({ pilot: 0.7, straight: 0.3, taper: 0, main: 0 });
    expect(regionWeights(0.85)).toEqual({ pilot: 0.03, straight: 0.02, taper: 0.2, main: 0.75 });
    expect(leadingRegion(regionWeights(0.85))).toBe("main");
  });
});
