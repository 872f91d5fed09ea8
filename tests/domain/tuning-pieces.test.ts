import { describe, expect, it } from "vitest";
import { Refusal } from "@/lib/domain/refusal";
import { fuelCurve, fuelOverSpeed } from "@/lib/domain/tuning/fuelCurve";
import { relativePhi } from "@/lib/domain/tuning/fuels";
import { fillingOfText } from "@/lib/domain/tuning/pullText";
import { calibrateFromRides, keptAir, type TaughtRide } from "@/lib/domain/tuning/ridden";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import type { FuelState, TargetInput } from "@/lib/domain/tuning/targetTypes";
import { fillingAt, fillingFrom, usualFilling } from "@/lib/domain/tuning/volumetric";
import { AS_FOUND, DROVER, OPENED, PLAIN_AIR } from "./tuning-demo";

const known = (value: number) => ({ value, how: "read" as const });
const settings = Object.fromEntries(Object.entries(AS_FOUND).map(([key, k]) => [key, k.value]));
const reference = { settings: { ...settings, floatHeightMm: 14 }, air: PLAIN_AIR };
const state: FuelState = { card: DROVER, carburettors: 1, settings: reference.settings, reference };
const full = (s: FuelState) => fuelCurve(s, PLAIN_AIR, 3).points[2]?.lambda ?? 0;
const solve = (change: Partial<TargetInput>) => {
  const [c] = targetSettings({
    ...OPENED,
    changes: [{ setting: "mainJet", change: "computed" }],
    ...change,
  }).carburettors;
  if (!c) throw new Error("no carburettor");
  return c;
};

describe("filling over engine speed", () => {
  it("is best at 80 % of rated speed in the usual engine, and the bike's own where a pull says it", () => {
    expect(usualFilling(0.8)).toBe(1);
    expect(usualFilling(0.4)).toBeCloseTo(0.92, 9);
    const rpm = [2000, 3000, 4000, 5000, 6000, 7000];
    const own = fillingFrom(rpm, [40, 48, 50, 49, 45, 38], 6500);
    expect(fillingAt(4000 / 6500, own)).toBe(1);
    expect(fillingAt(3500 / 6500, own)).toBeCloseTo(0.98, 9);
    expect(fillingAt(0.1, own)).toBeCloseTo(0.8, 9);
    expect(fillingAt(1.2, own)).toBeCloseTo(0.76, 9);
  });
  it("is read from a pull as it is typed, in pairs; anything else is refused by its field", () => {
    const typed = fillingOfText("3000 24; 3500 26,5, 4000 28\n5000 30; 6500 27", 6500);
    expect(typed).toEqual({
      how: "measured",
      value: fillingFrom([3000, 3500, 4000, 5000, 6500], [24, 26.5, 28, 30, 27], 6500),
    });
    expect(fillingOfText(" \n ", 6500)).toBeUndefined();
    for (const wrong of ["3000", "3000 31 7", "30 31", "rpm torque", "3000 -4", "x3000 31", "3000 31x"])
      expect(() => fillingOfText(`${wrong}; 3500 30`, 6500), wrong).toThrow(
        "is no engine speed with a torque",
      );
    expect(() => fillingOfText("3000 24; 3500 26", 6500)).toThrow(/too short/);
  });
  it("is not read from a pull that is short or has no torque", () => {
    expect(() => fillingFrom([5000, 5500, 6000, 6200, 6400], [40, 41, 42, 41, 40], 6500)).toThrow(Refusal);
    expect(() => fillingFrom([2000, 3000, 4000, 5000, 6000], [40, 0, 42, 41, 40], 6500)).toThrow(/torque/);
  });
});

describe("the fuel curve over engine speed at full throttle", () => {
  it("meets the target at every speed for the reference, and goes leaner at the top with a freer airbox and the same jet", () => {
    const same = fuelOverSpeed(state, PLAIN_AIR, 12);
    for (const p of same.points) expect(p.lambda).toBeCloseTo(p.target, 9);
    expect(same.points[0]?.rpm).toBeCloseTo(0.35 * 6500, 6);
    const opened = fuelOverSpeed(
      { ...state, settings: { ...state.settings, airboxOpeningMm: 51 } },
      PLAIN_AIR,
      12,
    );
    const [low, high] = [opened.points[0], opened.points.at(-1)];
    expect(high?.lambda ?? 0).toBeGreaterThan(low?.lambda ?? 9);
    for (const p of opened.points) expect(p.low).toBeLessThan(p.high);
  });
  it("agrees with the curve over throttle where both stand: full throttle at the road's speed", () => {
    const opened = { ...state, settings: { ...state.settings, airboxOpeningMm: 51 } };
    const points = fuelOverSpeed(opened, PLAIN_AIR, 71).points;
    const there = points.reduce((a, b) => (Math.abs(b.rpm - 6175) < Math.abs(a.rpm - 6175) ? b : a));
    expect(there.lambda).toBeCloseTo(full(opened), 3);
  });
});

describe("float height", () => {
  it("greater by 2 mm is a lower level, a little leaner at full load and more at idle; unknown before, it says nothing", () => {
    const at = (mm: number) =>
      fuelCurve({ ...state, settings: { ...state.settings, floatHeightMm: mm } }, PLAIN_AIR, 3);
    const gain = (i: number) => (at(16).points[i]?.lambda ?? 0) / (at(14).points[i]?.lambda ?? 1) - 1;
    expect(gain(2)).toBeGreaterThan(0);
    expect(gain(2)).toBeLessThan(0.01);
    expect(gain(0)).toBeGreaterThan(gain(2));
    const unknown = { ...state, reference: { settings, air: PLAIN_AIR } };
    expect(full({ ...unknown, settings: { ...settings, floatHeightMm: 30 } })).toBeCloseTo(full(state), 9);
  });
});

describe("a change of fuel between as found and target", () => {
  it("from E10 to E85 asks for 14.01/9.80 x sqrt(rho10/rho85) of the metering area, main jet and needle ring together", () => {
    const c = solve({ fuel: { found: { fuel: "E10" }, now: { fuel: "E85" } }, jets: [] });
    expect(c.mainJet?.exact ?? 0).toBeGreaterThan(160);
    expect(c.mainJet?.because.some((r) => r.firmness === "firm" && r.fact === "E10 before, E85 now")).toBe(
      true,
    );
    const phi = relativePhi(
      { ...PLAIN_AIR, fuel: "E85", fuelTemperatureK: 288.15 },
      { ...PLAIN_AIR, fuel: "E10", fuelTemperatureK: 288.15 },
    );
    expect(phi).toBeCloseTo((9.8 / 14.01) * Math.sqrt(783 / 750), 9);
  });
  it("back from E85 to E10 may go leaner unmeasured, since the fuels' ratio is firm: 140 x sqrt(0.715) is 118.4", () => {
    const c = solve({ fuel: { found: { fuel: "E85" }, now: { fuel: "E10" } }, jets: [] });
    expect(c.mainJet?.density?.exact).toBeCloseTo(140 * Math.sqrt((9.8 / 14.01) * Math.sqrt(783 / 750)), 6);
    expect(c.mainJet?.chosen.size).toBeLessThanOrEqual(120);
    expect(c.mainJet?.chosen.size).toBeGreaterThanOrEqual(c.mainJet?.density?.exact ?? 999);
  });
  it("is nothing where the fuel stays, and warm fuel is thinner", () => {
    expect(solve({}).mainJet?.exact).toBeCloseTo(140, 3);
    const warm = solve({
      fuel: { now: { fuelTemperatureK: 318 }, found: { fuelTemperatureK: 293 } },
    }).mainJet;
    expect(warm?.exact ?? 0).toBeGreaterThan(140.5);
    expect(
      warm?.because.some((r) => /^Fuel at 45 C, before at 20 C/.test(r.fact) && r.from === "entered"),
    ).toBe(true);
  });
});

describe("a mechanical slide", () => {
  const card = { ...DROVER, carburettorType: { value: "mechanical" as const, how: "read" as const } };
  const found = { ...AS_FOUND, slideCutawayMm: known(3) };
  it("gets richer at an eighth to a quarter throttle with a lower cutaway, and not at full", () => {
    const ref = { settings: { ...settings, slideCutawayMm: 3 }, air: PLAIN_AIR };
    const curve = (cut: number) =>
      fuelCurve(
        { card, carburettors: 1, settings: { ...ref.settings, slideCutawayMm: cut }, reference: ref },
        PLAIN_AIR,
        50,
      ).points;
    const gain = (i: number) => (curve(2.5)[i]?.lambda ?? 0) / (curve(3)[i]?.lambda ?? 1) - 1;
    expect(gain(8)).toBeLessThan(-0.02);
    expect(gain(49)).toBeCloseTo(0, 12);
  });
  it("has its cutaway computed, one step at most without a measurement", () => {
    const lean = [0.12, 0.18, 0.25].map((throttle) => ({ throttle, lambda: 1.12, sigma: 0.015 }));
    const reference = { settings: { ...settings, slideCutawayMm: 3 }, air: PLAIN_AIR };
    const rides: TaughtRide[] = [8, 9, 10, 11].map((bikeId) => ({
      kind: "wideband",
      settings: reference.settings,
      air: keptAir(PLAIN_AIR),
      at: lean,
      bikeId,
      current: true,
    }));
    const c = solve({
      card,
      carburettors: [{ name: "c", settings: found }],
      changes: [{ setting: "slideCutawayMm", change: "computed" }],
      calibration: calibrateFromRides({ id: 7, card, carburettors: 1, reference }, rides),
    });
    expect(c.settings.find((s) => s.key === "slideCutawayMm")).toMatchObject({ value: 2.5, from: 3 });
  });
  it("ranks the needles that can be had by their best groove", () => {
    const shape = DROVER.needle?.value;
    if (!shape) throw new Error("no needle");
    const steep = { ...shape, tapers: [{ lengthMm: 40, includedAngleDeg: 2.6 }] };
    const c = solve({
      card,
      needles: [
        { name: "steep", shape: steep },
        { name: "thin", shape: { ...shape, straightMm: 2.45 } },
      ],
    });
    expect(c.needles.map((n) => n.name)[0]).toBe("as fitted");
    expect(c.needles).toHaveLength(3);
    for (const [i, n] of c.needles.entries())
      if (i > 0) expect(n.loss).toBeGreaterThanOrEqual(c.needles[i - 1]?.loss ?? 9);
    expect(solve({ card }).needles).toEqual([]);
  });
});

describe("felt rich or felt lean on a ride", () => {
  const felt = (sign: "lean" | "rich"): TaughtRide => ({
    kind: "felt",
    settings,
    air: keptAir(PLAIN_AIR),
    at: [{ throttle: 1, sign }],
    bikeId: 7,
    current: true,
  });
  const main = (rides: readonly TaughtRide[]) =>
    calibrateFromRides(
      { id: 7, card: DROVER, carburettors: 1, reference: { settings, air: PLAIN_AIR } },
      rides,
    ).find((c) => c.region === "main");
  it("moves to its own side only, and neither narrows the band nor lifts a limit", () => {
    expect(main([felt("lean")])?.value).toBeLessThan(0);
    expect(main([felt("rich")])?.value).toBeGreaterThan(0);
    expect(main([felt("lean")])?.sigma).toBeCloseTo(main([])?.sigma ?? 0, 12);
    expect(main([felt("rich")])).toMatchObject({ samples: 0, measured: false });
  });
});
