import { describe, expect, it } from "vitest";
import { filterAdvice, flowFound, fuelNeed } from "@/lib/domain/bench/fuelFlow";

describe("what an engine burns at full load", () => {
  // By hand: 30 kW x 330 g/kWh = 9,900 g an hour = 165 g a minute; at 0.7475 g/ml 220.7 ml. Heywood, from memory; EN 228.
  it("is power times specific consumption by density, and so are its ends", () => {
    const need = fuelNeed(30);
    expect(need.needMl).toBeCloseTo(220.74, 2);
    expect([need.lowMl, need.highMl].map(Math.round)).toEqual([174, 278]);
    expect(need.firmness).toBe("starting point");
    expect(fuelNeed(60).needMl).toBeCloseTo(2 * need.needMl, 9);
    expect(() => fuelNeed(0)).toThrow();
  });
});

describe("a fuel line measured", () => {
  const need = fuelNeed(30);
  // Half as much again is enough: common practice, no source.
  it("is enough from half as much again, and too little below what is burnt", () => {
    const states = [220, 222, 331, 332].map((ml) => flowFound({ ml, seconds: 60 }, need).state);
    expect(states).toEqual(["too little", "just enough", "just enough", "enough"]);
    expect(flowFound({ ml: 100, seconds: 20 }, need).mlPerMinute).toBe(300);
  });

  it("says what holds the fuel back, by the flow with the filter and without", () => {
    const at = (ml: number) => flowFound({ ml, seconds: 60 }, need);
    expect(filterAdvice(at(150), at(200)).advice).toContain("too narrow without the filter");
    expect(filterAdvice(at(200), at(400)).advice).toContain("holds back too much");
    expect(filterAdvice(at(300), at(400)).advice).toContain("once the filter is dirty");
    expect(filterAdvice(at(400), at(410)).advice).toContain("may stay");
    // Identity: the same head, so losses are as the inverse squares of the flows: 1 - (200 / 400)^2.
    expect(filterAdvice(at(200), at(400)).share).toBeCloseTo(0.75, 9);
    expect(filterAdvice(at(420), at(400)).share).toBe(0);
  });
});
