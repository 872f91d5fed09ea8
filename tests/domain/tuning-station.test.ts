import { describe, expect, it } from "vitest";
import { OutOfRange, type Refusal } from "@/lib/domain/refusal";
import { flowAreaM2 } from "@/lib/domain/tuning/flowFigures";
import { needleDiameterMm } from "@/lib/domain/tuning/needle";
import { fillingOfText } from "@/lib/domain/tuning/pullText";
import { usualNeedle } from "@/lib/domain/tuning/standIns";
import { logRichness, resolve, stationAt } from "@/lib/domain/tuning/station";
import type { FuelState, SettingValues } from "@/lib/domain/tuning/targetTypes";
import { AS_FOUND, DROVER, PLAIN_AIR } from "./tuning-demo";

const known = <T>(value: T) => ({ value, how: "read" as const });
const settings: SettingValues = Object.fromEntries(
  Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]),
);
const reference = { settings, air: PLAIN_AIR };
const state: FuelState = { card: DROVER, carburettors: 1, settings, reference };

describe("a fuel state made ready to compute", () => {
  it("takes the reference's needle before the card's, and the fitted one for what is fitted now", () => {
    const shape = DROVER.needle?.value;
    if (!shape) throw new Error("no needle");
    const thick = known({ ...shape, straightMm: 2.55 });
    const thin = known({ ...shape, straightMm: 2.45 });
    const both = resolve({ ...state, needle: thin, reference: { ...reference, needle: thick } }, PLAIN_AIR);
    expect([both.reference.needle.straightMm, both.now.needle.straightMm]).toEqual([2.55, 2.45]);
    const one = resolve({ ...state, reference: { ...reference, needle: thick } }, PLAIN_AIR);
    expect([one.reference.needle.straightMm, one.now.needle.straightMm]).toEqual([2.55, 2.55]);
    expect(resolve(state, PLAIN_AIR).now.needle).toEqual(shape);
  });

  it("takes springs and flows of now and of the reference as they were described", () => {
    const spring = (rateNPerM: number) => ({ freeMm: 118, coils: null, rateNPerM, exchanged: true });
    const flows = (flowLMin: number) => ({ filter: { flowLMin, atPa: 1500 } });
    const r = resolve(
      {
        ...state,
        spring: spring(90),
        flows: flows(1800),
        reference: { ...reference, spring: spring(120), flows: flows(1500) },
      },
      PLAIN_AIR,
    );
    expect(r.now.spring?.rateNPerM).toBe(90);
    expect(r.machine.spring.rateNPerM).toBe(120);
    expect(r.now.flows?.filterM2).toBeCloseTo(flowAreaM2({ flowLMin: 1800, atPa: 1500 }), 12);
    expect(r.reference.flows?.filterM2).toBeCloseTo(flowAreaM2({ flowLMin: 1500, atPa: 1500 }), 12);
  });

  it("takes the screw of the sheet, else the delivered one, else one and a half turns (judgement)", () => {
    const turns = (card: FuelState["card"], own: SettingValues) =>
      resolve({ ...state, card, reference: { ...reference, settings: own } }, PLAIN_AIR).reference.settings
        .mixtureScrewTurns;
    const { deliveredScrewTurns: _, ...unsaid } = DROVER;
    expect(turns(DROVER, { mixtureScrewTurns: 2 })).toBe(2);
    expect(turns(DROVER, {})).toBe(1.75);
    expect(turns(unsaid, {})).toBe(1.5);
  });

  it("refuses fuel that is no warmer than a freezer, or boils, in kelvin", () => {
    expect(() => resolve({ ...state, fuelTemperatureK: 200 }, PLAIN_AIR)).toThrow(
      "fuel temperature is 200 K, outside 233 to 353 K.",
    );
    expect(() => resolve({ ...state, fuelTemperatureK: 354 }, PLAIN_AIR)).toThrow(OutOfRange);
  });

  it("says nothing of a cutaway that one side does not know", () => {
    const card = { ...DROVER, carburettorType: known("mechanical" as const) };
    const cut = { ...settings, slideCutawayMm: 2.5 };
    const r = resolve(
      { ...state, card, settings: cut, reference: { ...reference, settings: cut } },
      PLAIN_AIR,
    );
    const station = stationAt(r, "atmosphere", 0.18);
    const log = (own: SettingValues) => logRichness(r, station, { settings: own, needle: r.now.needle });
    expect(log(settings)).toBeCloseTo(log(cut), 12);
    expect(log({ ...settings, slideCutawayMm: 3 })).toBeLessThan(log(cut) - 0.02);
  });
});

describe("a needle of usual proportions", () => {
  // 2.5 mm in a jet of 2.6, and 0.75 mm thinner over 0.63 bores (judgement), in proportion to the jet.
  it("grows with its needle jet: straight part and taper alike", () => {
    for (const jetMm of [2.4, 2.6, 3.2]) {
      const k = jetMm / 2.6;
      const needle = usualNeedle(jetMm, 37);
      const at = (bores: number) => needleDiameterMm(needle, (0.16 + bores) * 37);
      expect(at(0)).toBeCloseTo(2.5 * k, 12);
      expect(at(0.63)).toBeCloseTo(1.75 * k, 12);
    }
  });
});

describe("a pull as it is typed", () => {
  it("may be lined up with spaces, and read to a hundredth of a newton metre", () => {
    const pull = fillingOfText("2000  20,25; 3000  40.50; 4000  40; 5000  36; 6000  30", 6500);
    expect(pull?.value.map((p) => p.filling)).toEqual([0.5, 1, 40 / 40.5, 36 / 40.5, 30 / 40.5]);
  });

  it("names torque that no engine has, in its unit", () => {
    expect(() => fillingOfText("2000 20; 3000 0; 4000 40; 5000 36; 6000 30", 6500)).toThrow(
      "torque is 0 Nm, outside 0.1 to 2000 Nm.",
    );
  });

  it("is refused at its own field", () => {
    try {
      fillingOfText("3000 x", 6500);
      expect.unreachable();
    } catch (error) {
      expect((error as Refusal).fields).toEqual({
        pull: "Enter pairs of rpm and torque, as 3000 31.2; 3500 33.0.",
      });
    }
  });
});
