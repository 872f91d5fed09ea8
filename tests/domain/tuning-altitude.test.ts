import { describe, expect, it } from "vitest";
import { standardAir } from "@/lib/domain/air/isa";
import { airFromReading, buildAir } from "@/lib/domain/air/weather";
import { settingForTrip } from "@/lib/domain/bench/trip";
import { densityJet } from "@/lib/domain/tuning/densityJet";
import { targetSettings } from "@/lib/domain/tuning/targetSheet";
import { mainJets, OPENED } from "./tuning-demo";

/** Dry standard air, as measured. */
const isa = (altitudeM: number) => {
  const { pressurePa, temperatureK } = standardAir(altitudeM);
  return buildAir(pressurePa, temperatureK, 0, false, 0.003, [{ fact: "ISA", from: "ISO 2533" }]);
};
const SIZES = Array.from({ length: 41 }, (_, i) => 100 + 2.5 * i);
const sheet = (altitudeM: number) =>
  targetSettings({
    ...OPENED,
    changes: [{ setting: "mainJet", change: "computed" }],
    baseline: isa(0),
    now: isa(altitudeM),
    jets: mainJets(SIZES),
  });

describe("the jet by air density alone", () => {
  it("is 130 from 140 for ISA 0 to 3000 m: area x 0.8615 (ISO 2533, identity)", () => {
    const jet = densityJet(140, "bore", isa(3000), isa(0));
    expect(jet.areaRatio).toBeCloseTo(0.8615, 3);
    expect(jet.exact).toBeCloseTo(129.94, 1);
    expect(jet.size).toBe(130);
    // Numbered by flow, a jet's number goes as its area.
    expect(densityJet(140, "flow", isa(3000), isa(0)).exact).toBeCloseTo(140 * 0.8615, 1);
  });
  it("counts dry air for the oxygen and moist air for the signal", () => {
    const dry = airFromReading({ stationPa: 101_325, temperatureC: 35, humidity: 0 });
    const wet = airFromReading({ stationPa: 101_325, temperatureC: 35, humidity: 0.8 });
    const ratio = wet.dryDensityKgM3 / dry.dryDensityKgM3 / Math.sqrt(wet.densityKgM3 / dry.densityKgM3);
    expect(densityJet(140, "bore", wet, dry).areaRatio).toBeCloseTo(ratio, 12);
    expect(ratio).toBeLessThan(wet.densityKgM3 / dry.densityKgM3);
  });
});

describe("3000 m up, with nothing measured", () => {
  const up = sheet(3000);
  const jet = up.carburettors[0]?.mainJet;
  it("takes the step that air density alone asks for, rounded to the richer size, and no more", () => {
    expect(jet?.chosen.size).toBe(130);
    expect(jet?.density?.size).toBe(130);
    expect(up.refusals[0]).toMatchObject({ allowed: 130 });
    expect(up.refusals[0]?.message).toMatch(/Air density alone asks for 130/);
  });
  it("shows the square-root law's jet beside the constant-depression model's, and how a ride decides", () => {
    expect(jet?.exact).toBeLessThan(128);
    const told = jet?.because.find((r) => r.effect?.startsWith("130"));
    expect(told?.firmness).toBe("firm");
    expect(
      jet?.because.some((r) => r.firmness === "starting point" && /constant depression/.test(r.from)),
    ).toBe(true);
    expect(jet?.because.some((r) => /full load/.test(r.effect ?? ""))).toBe(true);
  });
  it("says nothing of two laws where they agree", () => {
    const level = sheet(0).carburettors[0]?.mainJet;
    expect(level?.because.some((r) => /constant depression/.test(r.from))).toBe(false);
  });
  it("goes for a trip as far as the richest corner's density allows", () => {
    const trip = (lowM: number) =>
      settingForTrip({
        card: OPENED.card,
        carburettors: OPENED.carburettors,
        here: isa(0),
        there: { lowM, highM: 3000, coldC: 5, warmC: 15, humidity: 0 },
        jets: mainJets(SIZES),
      });
    const high = trip(3000);
    expect(high.chosen.size).toBe(Math.max(...high.corners.map((c) => c.byDensity.size)));
    expect(trip(0).chosen.size).toBeGreaterThanOrEqual(137.5);
  });
});
