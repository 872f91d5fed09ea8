import { describe, expect, it } from "vitest";
import { SETTINGS, settingDef } from "@/lib/domain/tuning/settings";

describe("the settings of a sheet", () => {
  it("stand in one order, each with the unit that it is written in on paper", () => {
    expect(SETTINGS.map(({ key, unit }) => [key, unit])).toEqual([
      ["mainJet", ""],
      ["pilotJet", ""],
      ["clipPosition", ""],
      ["needleSeatMm", "mm"],
      ["needleShimBelowMm", "mm"],
      ["needleShimAboveMm", "mm"],
      ["slideCutawayMm", "mm"],
      ["mixtureScrewTurns", "turns out"],
      ["floatHeightMm", "mm"],
      ["springLengthMm", "mm"],
      ["springCoils", ""],
      ["liftHoleCount", ""],
      ["liftHoleMm", "mm"],
      ["airboxOpeningMm", "mm"],
      ["snorkelFitted", ""],
      ["headerWeldMm", "mm"],
      ["idleSpeedRpm", "rpm"],
    ]);
  });

  it("are found by their key, and show as many decimals as their step has", () => {
    for (const def of SETTINGS) {
      expect(settingDef(def.key)).toBe(def);
      expect(Number(def.step.toFixed(def.decimals))).toBe(def.step);
      expect(def.low).toBeLessThan(def.high);
    }
    expect(settingDef("noSuch")).toBeUndefined();
  });
});
