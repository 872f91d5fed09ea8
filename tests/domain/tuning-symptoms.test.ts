import { describe, expect, it } from "vitest";
import type { Observation } from "@/lib/domain/tuning/rideTypes";
import { corrections, type RideSheet } from "@/lib/domain/tuning/symptoms";

const sheet: RideSheet = {
  settings: {
    mainJet: 147.5,
    pilotJet: 45,
    clipPosition: 3,
    mixtureScrewTurns: 1.75,
    floatHeightMm: 14,
    springLengthMm: 100,
    idleSpeedRpm: 1400,
  },
  carburettorType: "cv",
};
const felt = (
  throttle: Observation["throttle"],
  sign: Observation["sign"],
  condition: Observation["condition"] = "steady",
  engine: Observation["engine"] = "hot",
): Observation => ({ throttle, sign, condition, engine });
const ranked = (...observations: Observation[]) => corrections(observations, sheet).corrections;
const first = (...observations: Observation[]) => ranked(...observations)[0];

describe("symptoms", () => {
  it("points at the needle, not the main jet, for hesitation near a quarter (common practice, no source)", () => {
    const list = ranked(felt("quarter", "hesitates"));
    expect(list[0]).toMatchObject({ setting: "clipPosition", from: 3, to: 4, direction: "richer" });
    const main = list.findIndex((c) => c.setting === "mainJet");
    expect(main === -1 || main > 0).toBe(true);
  });
  it("points at the main jet at full throttle, richer when lean, and wants lambda before leaner", () => {
    expect(first(felt("full", "lean"))).toMatchObject({ setting: "mainJet", to: 150, direction: "richer" });
    expect(first(felt("full", "lean"))?.needsMeasurement).toBeUndefined();
    const leaner = first(felt("full", "rich"));
    expect(leaner).toMatchObject({ setting: "mainJet", to: 145, direction: "leaner" });
    expect(leaner?.needsMeasurement).toContain("lambda at full load");
  });
  it("starts with the screw at idle and the spring on a lean snap", () => {
    expect(first(felt("closed", "lean", "idle"))).toMatchObject({ setting: "mixtureScrewTurns", to: 2 });
    const cut = { ...sheet, deliveredSpringMm: 112 };
    const [spring] = corrections([felt("full", "lean", "snap"), felt("full", "good")], cut).corrections;
    expect(spring).toMatchObject({ setting: "springLengthMm", from: 100, to: 112, direction: "up" });
    expect(spring?.because.map((r) => r.effect).join()).toContain("exchange it");
    const noSpring = corrections([felt("full", "lean", "snap")], { ...sheet, carburettorType: "mechanical" });
    expect(noSpring.corrections.map((c) => c.setting)).not.toContain("springLengthMm");
  });
  it("never makes a spring longer: uncut, or of unknown delivery, it is no lever (common practice)", () => {
    for (const deliveredSpringMm of [undefined, 100, 96]) {
      const { corrections: list } = corrections([felt("full", "lean", "snap")], {
        ...sheet,
        deliveredSpringMm,
      });
      expect(list.map((c) => c.setting)).not.toContain("springLengthMm");
    }
  });
  it("offers only what this bike has: shims and no clip without grooves, clips inside the grooves", () => {
    const { clipPosition: _, ...settings } = sheet.settings;
    const bare = { ...sheet, settings: { ...settings, needleShimBelowMm: 0.25 }, grooves: 0 };
    const shims = [
      { sizeMm: 0.25, free: 0 },
      { sizeMm: 0.5, free: 3 },
    ];
    const [lean] = corrections([felt("quarter", "lean")], { ...bare, shims }).corrections;
    expect(lean).toMatchObject({ setting: "needleShimBelowMm", from: 0.25, to: 0.75, direction: "richer" });
    const [order] = corrections([felt("quarter", "lean")], bare).corrections;
    expect(order?.because.at(-1)?.fact).toBe("No needle shim is free: order 0.25 mm");
    const rich = corrections([felt("quarter", "rich")], { ...bare, shims }).corrections;
    expect(rich.map((c) => c.setting)).not.toContain("needleShimBelowMm");
    const keys = corrections([felt("quarter", "lean")], bare).corrections.map((c) => c.setting);
    expect(keys).not.toContain("clipPosition");
    const top = corrections([felt("quarter", "lean")], { ...sheet, grooves: 3 }).corrections;
    expect(top.map((c) => c.setting)).not.toContain("clipPosition");
    expect(top.map((c) => c.setting)).not.toContain("needleShimBelowMm");
  });
  it("takes a jet of the drawer first, two half sizes richer at most, and leaner by one only", () => {
    const from = (sign: "lean" | "rich", mainJet: readonly number[]) =>
      corrections([felt("full", sign)], { ...sheet, jets: { mainJet } }).corrections[0];
    expect(from("lean", [150, 152.5])?.to).toBe(150);
    expect(from("lean", [152.5])).toMatchObject({ to: 152.5 });
    expect(from("lean", [155])).toMatchObject({ to: 150 });
    expect(from("rich", [142.5])).toMatchObject({ to: 145 });
  });
  it("offers needle and screw as one change where both point the same way, with the reason", () => {
    const list = ranked(felt("eighth", "lean"), felt("quarter", "lean"));
    const both = list.find((c) => c.also);
    expect(both).toMatchObject({
      setting: "clipPosition",
      to: 4,
      also: [{ setting: "mixtureScrewTurns", from: 1.75, to: 2 }],
    });
    expect(both?.because[0]?.fact).toContain("One step of the needle, then the screw");
    expect(ranked(felt("full", "lean")).some((c) => c.also)).toBe(false);
  });
  it("puts what was tried on this bike and taken back behind, and says what it did", () => {
    const what = "Clip position from top 3 to 4 on job 612: rich at a quarter; taken back";
    const tried = [{ setting: "clipPosition", to: 4, what }];
    const plain = ranked(felt("half", "lean"), felt("threeQuarter", "lean"));
    const list = corrections([felt("half", "lean"), felt("threeQuarter", "lean")], {
      ...sheet,
      tried,
    }).corrections;
    expect(plain[0]?.setting).toBe("clipPosition");
    expect(list[0]?.setting).toBe("mainJet");
    expect(list.find((c) => c.setting === "clipPosition")?.because.map((r) => r.fact)).toContain(what);
  });
  it("lowers the fuel level when it floods on starting: a larger float height is leaner (common practice)", () => {
    const float = ranked(felt("closed", "floods", "starting")).find((c) => c.setting === "floatHeightMm");
    expect(float).toMatchObject({ from: 14, to: 14.5, direction: "leaner" });
  });
  it("leaves alone what is good: half lean with full good is the clip, and the main loses weight", () => {
    const alone = ranked(felt("half", "lean")).find((c) => c.setting === "mainJet")?.score ?? 0;
    const list = ranked(felt("half", "lean"), felt("full", "good"));
    expect(list[0]?.setting).toBe("clipPosition");
    expect(list.find((c) => c.setting === "mainJet")?.score ?? 0).toBeLessThan(alone);
  });
  it("counts a cold engine less than a hot one", () => {
    const hot = first(felt("quarter", "lean"))?.score ?? 0;
    expect(first(felt("quarter", "lean", "steady", "cold"))?.score ?? 1).toBeLessThan(hot);
  });
  it("asks for a measurement beyond one step leaner than what was accepted", () => {
    const second = corrections([felt("half", "rich")], {
      ...sheet,
      settings: { ...sheet.settings, clipPosition: 2 },
      accepted: { clipPosition: 3 },
    });
    expect(second.corrections[0]).toMatchObject({ setting: "clipPosition", from: 2, to: 1 });
    expect(second.corrections[0]?.needsMeasurement).toContain("more than one step leaner");
    const one = corrections([felt("half", "rich")], { ...sheet, accepted: { clipPosition: 3 } });
    expect(one.corrections[0]?.needsMeasurement).toBeUndefined();
  });
  it("rules out faults first, by what was felt", () => {
    const lean = corrections([felt("half", "surges")], sheet).ruleOutFirst.map((r) => r.check);
    expect(lean[0]).toContain("Air leak");
    expect(lean.join()).toMatch(/Fuel flow.*Float height.*Valve clearance.*Ignition/);
    const rich = corrections([felt("half", "rich")], sheet)
      .ruleOutFirst.map((r) => r.check)
      .join();
    expect(rich).toContain("Air filter");
    expect(rich).not.toContain("Air leak");
    expect(corrections([felt("half", "good")], sheet)).toEqual({
      corrections: [],
      ruleOutFirst: [],
      unexplained: [],
    });
  });
  it("says when observations contradict, stays inside ranges, and knows directions without values", () => {
    const both = corrections([felt("half", "lean"), felt("half", "rich")], sheet);
    expect(both.unexplained[0]).toContain("both lean and rich");
    const bare = corrections([felt("half", "lean")], { settings: {} }).corrections[0];
    expect(bare).toMatchObject({ setting: "clipPosition", from: null, to: null, direction: "richer" });
    const top = corrections([felt("half", "lean")], { settings: { clipPosition: 7 } }).corrections;
    expect(top.map((c) => c.setting)).not.toContain("clipPosition");
    expect(() => corrections([], sheet)).toThrow("Nothing was observed.");
  });
  it("gives every correction its reasons", () => {
    for (const c of ranked(
      felt("quarter", "surges"),
      felt("full", "rich"),
      felt("closed", "lean", "decelerating"),
    )) {
      expect(c.because.length).toBeGreaterThan(0);
      expect(c.score).toBeGreaterThan(0);
      expect(c.score).toBeLessThanOrEqual(1);
    }
  });
});
