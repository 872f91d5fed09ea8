import { describe, expect, it } from "vitest";
import { stepThatCanBeMade, usable } from "@/lib/domain/tuning/correctionStep";
import { practisedTogether } from "@/lib/domain/tuning/practised";
import type { Correction } from "@/lib/domain/tuning/rideTypes";
import { LEVERS } from "@/lib/domain/tuning/symptomTable";

const lever = (key: string) => {
  const found = LEVERS.find((one) => one.key === key);
  if (!found) throw new Error(key);
  return found;
};

// What a workshop can do to each setting: common practice, no source.
describe("what a bike can be changed in", () => {
  const has = (key: string, sheet: Partial<Parameters<typeof usable>[1]>) =>
    usable(lever(key), { settings: {}, ...sheet });
  it("is a spring on a constant-vacuum slide alone", () => {
    expect(has("springLengthMm", { carburettorType: "mechanical" })).toBe(false);
    expect(has("springLengthMm", { carburettorType: "cv" })).toBe(true);
    expect(has("springLengthMm", {})).toBe(true);
    expect(has("mainJet", { carburettorType: "mechanical", grooves: 0 })).toBe(true);
  });
  it("is a clip where the needle has grooves, else shims; where nobody counted, what the sheet knows of", () => {
    expect([has("clipPosition", { grooves: 0 }), has("needleShimBelowMm", { grooves: 0 })]).toEqual([
      false,
      true,
    ]);
    expect([has("clipPosition", { grooves: 5 }), has("needleShimBelowMm", { grooves: 5 })]).toEqual([
      true,
      false,
    ]);
    expect([has("clipPosition", {}), has("needleShimBelowMm", {})]).toEqual([true, false]);
    expect(has("needleShimBelowMm", { settings: { needleShimBelowMm: 0 } })).toBe(true);
    expect(has("needleShimBelowMm", { grooves: 5, settings: { needleShimBelowMm: 0 } })).toBe(false);
  });
});

describe("a step that can be made", () => {
  const step = (key: string, sense: 1 | -1, from: number, sheet: object = {}) =>
    stepThatCanBeMade(lever(key), sense, from, { settings: {}, ...sheet });
  const facts = (made: ReturnType<typeof step>) =>
    made?.because.map((one) => [one.fact, one.effect, one.from]);
  it("is the setting's own where nothing stands in its way", () => {
    expect(step("mixtureScrewTurns", -1, 2.1)).toEqual({ to: 1.85, because: [] });
    expect(step("springLengthMm", -1, 100)).toEqual({ to: 98, because: [] });
    expect(step("mainJet", 1, 140)).toEqual({ to: 142.5, because: [] });
    // Sums are rounded to what a sheet holds: 0.1 + 0.25 is no 0.35 in binary.
    expect(step("mixtureScrewTurns", 1, 0.1)?.to).toBe(0.35);
  });
  it("goes to the last groove and no further", () => {
    expect(step("clipPosition", 1, 4, { grooves: 5 })).toEqual({ to: 5, because: [] });
    expect(step("clipPosition", 1, 5, { grooves: 5 })).toBeNull();
    expect(step("clipPosition", 1, 5)?.to).toBe(6);
    expect(step("clipPosition", -1, 5, { grooves: 5 })?.to).toBe(4);
  });
  it("takes the thinnest shim that is free, or asks to order a usual one; takes out only what is there", () => {
    const shims = [
      { sizeMm: 0.5, free: 2 },
      { sizeMm: 0.3, free: 1 },
      { sizeMm: 0.1, free: 0 },
    ];
    expect(step("needleShimBelowMm", 1, 0.5, { shims })?.to).toBe(0.8);
    expect(facts(step("needleShimBelowMm", 1, 0.5, { shims }))).toEqual([
      ["A shim of 0.3 mm is free", undefined, "stock"],
    ]);
    for (const none of [{ shims: [] }, {}, { shims: [{ sizeMm: 0.4, free: 0 }] }]) {
      expect(step("needleShimBelowMm", 1, 0.5, none)?.to).toBe(0.75);
      expect(facts(step("needleShimBelowMm", 1, 0.5, none))?.[0]?.[0]).toBe(
        "No needle shim is free: order 0.25 mm",
      );
    }
    expect(step("needleShimBelowMm", -1, 0.3, { shims })).toEqual({ to: 0, because: [] });
    // 0.1 + 0.2 is a hair more than 0.3 in binary, 0.7 - 0.4 a hair less.
    expect(step("needleShimBelowMm", -1, 0.7 - 0.4, { shims })?.to).toBeCloseTo(0, 12);
    expect(step("needleShimBelowMm", -1, 0.25, { shims })).toBeNull();
    expect(step("needleShimBelowMm", -1, 0.5)).toEqual({ to: 0.25, because: [] });
  });
  it("exchanges a cut spring for the delivered one, which only makes it longer", () => {
    expect(step("springLengthMm", 1, 100, { deliveredSpringMm: 112 })?.to).toBe(112);
    expect(facts(step("springLengthMm", 1, 100, { deliveredSpringMm: 112 }))).toEqual([
      [
        "The spring was cut to 100 mm and gets no longer",
        "exchange it for one of 112 mm, as delivered",
        "common practice",
      ],
    ]);
    expect(step("springLengthMm", 1, 112, { deliveredSpringMm: 112 })).toBeNull();
    expect(step("springLengthMm", 1, 113, { deliveredSpringMm: 112 })).toBeNull();
    expect(step("springLengthMm", 1, 100)).toBeNull();
    expect(step("springLengthMm", -1, 112, { deliveredSpringMm: 112 })?.to).toBe(110);
  });
  it("takes a jet of the drawer: the next, the one after it where richer, else orders the next", () => {
    const drawer = (...mainJet: number[]) => ({ jets: { mainJet } });
    expect(step("mainJet", 1, 140, drawer(142.5, 145))).toEqual({ to: 142.5, because: [] });
    expect(step("mainJet", 1, 140, drawer(145))?.to).toBe(145);
    expect(facts(step("mainJet", 1, 140, drawer(145)))).toEqual([
      ["142.5 is not in the drawer", "145 is, and is the richer side", "stock"],
    ]);
    for (const [sense, to, held] of [
      [1, 142.5, drawer(147.5)],
      [-1, 137.5, drawer(135)],
      [-1, 137.5, drawer()],
    ] as const) {
      expect(step("mainJet", sense, 140, held)?.to).toBe(to);
      expect(facts(step("mainJet", sense, 140, held))).toEqual([
        [`${to} is not in the drawer`, "order it", "stock"],
      ]);
    }
    expect(step("pilotJet", -1, 45, { jets: { pilotJet: [42.5] } })).toEqual({ to: 42.5, because: [] });
    expect(facts(step("pilotJet", -1, 45, { jets: { pilotJet: [40] } }))?.[0]?.[0]).toBe(
      "42.5 is not in the drawer",
    );
    // The other jet's drawer says nothing of this one.
    expect(step("pilotJet", 1, 45, drawer(10))).toEqual({ to: 47.5, because: [] });
  });
});

describe("changes that are made together (common practice)", () => {
  const one = (setting: Correction["setting"], more: Partial<Correction> = {}): Correction => ({
    setting,
    from: 2,
    to: 3,
    unit: "",
    direction: "richer",
    score: 0.6,
    because: [{ fact: setting, from: "test ride" }],
    firmness: "starting point",
    ...more,
  });
  const screw = one("mixtureScrewTurns", { from: 1.5, to: 1.75, score: 0.2 });
  it("are a step of the needle or a pilot jet, with the screw; the needle first", () => {
    for (const lead of ["clipPosition", "needleShimBelowMm", "pilotJet"] as const) {
      const [both, ...more] = practisedTogether([one("mainJet"), one(lead), screw]);
      expect(more).toEqual([]);
      expect(both).toMatchObject({
        setting: lead,
        from: 2,
        to: 3,
        score: 0.4,
        also: [{ setting: "mixtureScrewTurns", from: 1.5, to: 1.75 }],
      });
      expect(both?.because.map((r) => r.from)).toEqual(["common practice", "test ride", "test ride"]);
      expect(both?.because.map((r) => r.fact).slice(1)).toEqual([lead, "mixtureScrewTurns"]);
    }
    const all = practisedTogether([one("pilotJet"), one("clipPosition"), screw]);
    expect(all.map((c) => c.setting)).toEqual(["clipPosition"]);
    expect(practisedTogether([one("mainJet"), screw])).toEqual([]);
  });
  it("go the same way, are known, and need no measurement; else none is told", () => {
    const clip = one("clipPosition");
    expect(practisedTogether([clip])).toEqual([]);
    expect(practisedTogether([screw])).toEqual([]);
    expect(practisedTogether([clip, { ...screw, direction: "leaner" }])).toEqual([]);
    expect(practisedTogether([{ ...clip, to: null }, screw])).toEqual([]);
    expect(practisedTogether([clip, { ...screw, from: null }])).toEqual([]);
    expect(practisedTogether([clip, { ...screw, to: null }])).toEqual([]);
    expect(practisedTogether([{ ...clip, needsMeasurement: "lambda" }, screw])).toEqual([]);
    expect(practisedTogether([clip, { ...screw, needsMeasurement: "lambda" }])).toEqual([]);
    // What the needle cannot give, the pilot jet may.
    const pilot = practisedTogether([{ ...clip, to: null }, one("pilotJet"), screw]);
    expect(pilot.map((c) => c.setting)).toEqual(["pilotJet"]);
  });
});
